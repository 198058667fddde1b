# English of the United States. The measure for every other catalogue: same messages, same variables.

## Names of things. English plans name them in English already.
name-coating = { $name }
name-sheet = { $name }
name-board = { $name }
name-tape = { $name }
name-sealant = { $name }
name-fastener = { $name }
name-drain = { $name }
name-stone = { $name }
name-masonry = { $name }
name-lumber = { $name }
name-equipment = { $name }
name-pier-wrap = pier wrap ({ $name })
names-from-to = { $from } to { $to }
and-more = { $first } and { $count } more

unit-sheet = { $count ->
    [one] sheet
   *[other] sheets
}
unit-roll = { $count ->
    [one] roll
   *[other] rolls
}
unit-tube = { $count ->
    [one] tube
   *[other] tubes
}
unit-pail = { $count ->
    [one] pail
   *[other] pails
}
unit-box = { $count ->
    [one] box
   *[other] boxes
}
unit-bag = { $count ->
    [one] bag
   *[other] bags
}
unit-piece = { $count ->
    [one] piece
   *[other] pieces
}
unit-yard = { $count ->
    [one] cubic yard
   *[other] cubic yards
}
unit-cubic-meter = { $count ->
    [one] cubic meter
   *[other] cubic meters
}

## Places
level-datum = the zero mark of the plans
level-top = the top of the wall
level-pier-top = the top of the pier
level-sill = the underside of the sill
level-grade = the ground outside
level-floor = the crawl floor
level-footing = the top of the footing
level-above = { $by } above { $level }
level-below = { $by } below { $level }
edge-top = the top edge of the { $of }
edge-bottom = the bottom edge of the { $of }
edge-ends = both end edges of the { $of }
edge-joints = every joint of the { $of }
edge-heads = the head of every { $of }
edge-laps = every lap of the { $of }
edge-cuts = every cut in the { $of }
edge-perimeter = the edge all around the { $of }
edge-head = the top of the wall
edge-pier-head = the top of the pier
edge-footing = the footing
face-wall-outside = Walls, outside
face-wall-inside = Walls, inside
face-wall-head = Top of walls
face-pier-head = Top of piers
face-pier = Piers
face-opening = Doors and vents
face-ground = Crawl floor
face-joint-wall = Foot of the walls
face-joint-pier = Foot of the piers

## Steps
step-coat = Coat with { $what }, from { $from } to { $to }.
step-coat-edge = Coat { $edge } with { $what }.
step-coat-all = Coat all of it with { $what }.
step-drain = Lay { $what } along the footing.
step-fill = Fill with { $what }, from { $from } to { $to }.
step-fill-all = Fill with { $what }.
step-lay = Lay { $what } on the ground. Lap the strips { $by }.
step-lay-all = Lay { $what } on the ground.
step-hang = Hang { $what } from { $from } to { $to }.
step-hang-tail = Hang { $what } from { $from } to { $to }. Leave { $by } more lying on the ground.
step-set = Set { $what } from { $from } to { $to }.
step-set-all = Set { $what }.
step-fasten = Fasten the { $what } with { $with }.
step-fasten-every = Fasten the { $what } with { $with }, one every { $every }.
step-fasten-each = Fasten the { $what } with { $with }, { $count } to a full { $unit }.
step-cap = Cap { $edge } with { $with }.
step-tape = Put { $with } on { $edge }.
step-seal = Run a { $bead } bead of { $with } along { $edge }.
step-seal-any = Run a bead of { $with } along { $edge }.
step-lap-over = Lap the { $what } { $by } over the { $other }.
step-lap-under = Lap the { $what } { $by } under the { $other }.
step-remove = Take up the { $what } and carry it out.

## What comes before everything
gate-flood = STOP: flood zone. A closed crawl space may not be allowed here. Ask the building department first.
gate-draft = STOP: a burner or water heater takes its air from this space. Closing it can poison people. Do not close until a licensed contractor has changed that.
gate-radon = Radon is to be expected here and no vent pipe is on the plans. Ask before closing. Test the house afterwards.
gate-radon-pipe = Radon is to be expected here. Keep the vent pipe open and sealed where it passes the sheet. Test the house afterwards.
gate-errors = { $count ->
    [one] The plans still have 1 error. Ask the office before you build from this sheet.
   *[other] The plans still have { $count } errors. Ask the office before you build from this sheet.
}
care-head = SAFETY
care-dig = Digging: have pipes and cables marked first. Nobody in a deep trench without shoring. Soil and machines back from the edge.
care-confined = Crawl space: never alone. Have air moving, light, and a way out. Stay out when water stands in it or when it smells of gas.
care-fasten = Powder-actuated and driven fasteners: trained people only. Eye and ear protection. Nobody behind the wall. Do not shoot into hollow block edges.
care-foam = Foam burns. No torch, welding or smoking near it. This foam must be covered with a fire barrier as the code asks before the space is used.
care-foam-tested = Foam burns. No torch, welding or smoking near it. Leave the foil whole: only the board named on the plans may stay uncovered.
care-fumes = Coatings and sealants give off fumes. Read the label, move the air, no flame.
care-electric = Electricity: no cords in water, use GFCI. Leave wires and panels to an electrician.
care-burn = Never close a space that a burner takes its air from.
need-graded = First: the ground is graded.
need-drained = First: the drain works and no water stands.
need-dry = First: the ground is dry and the reading is written down.
need-vents-open = First: the vents are open.
need-other = First: { $what }.
foot = Made from the plans. Nothing here sizes structure: footings, walls, piers, beams and fasteners for strength are by local code and licensed practice. If the site differs from this sheet, stop and ask.

## Crew sheet
crew-title = Crew sheet
crew-walls = Walls: all sizes are inside
crew-wall = Wall
crew-length = Length
crew-height = Height
crew-board-top = Board: below top
crew-pieces = Board pieces
crew-at-top = at the top
crew-existing = { $name } (old wall, leave as it is)
crew-piers = { $count ->
    [one] 1 pier: { $names }. Pins on it: { $pins }.
   *[other] { $count } piers: { $names }. Pins on each: { $pins }.
}
crew-visit = Visit: { $name }
crew-stop = STOP. Inspection: { $hold }.
crew-stops = Nobody goes on past a STOP before its inspection is passed. Height is from the crawl floor to the top of the wall.
key-plan-title = Where is what
key-plan-says = Key plan: { $walls } walls with their names and inside lengths, { $piers } piers; circles are openings.

## Order list
order-title = Order list
order-note = Listed under the visit that needs it first. Check every delivery against its label before it is used.
order-incomplete = INCOMPLETE: something could not be counted. Ask the office.
order-come = Here
order-count = How many
order-what = What
order-size = Size
order-for = To be here for: { $visit }
order-any = Any time
order-also = { $what } (also for { $visits })
order-packs = { $packs } × { $each } { $unit }
order-units = { $units } { $unit }

## Inspector sheet
inspector-title = Inspector sheet
inspector-note = What the code packs named in the plans ask of this house, and what the plans say. It does not replace the adopted code, its local amendments, or the inspection on site. Texts of rules and inspections are those of the packs and plans.
inspector-holds = Inspections on site
inspector-hold = { $hold } (at the end of { $visit })
inspector-points = Points of the code
inspector-point = Point
inspector-met = Met where
inspector-evidence = By these figures
inspector-none = The plans name no code pack with a point that applies here.
inspector-house = the house
inspector-idle = { $count ->
    [one] 1 more point has nothing to look at in this house.
   *[other] { $count } more points have nothing to look at in this house.
}
inspector-met-all = Met at all { $count }: { $items }.
inspector-met-at = Met: { $items }.
inspector-not-met = NOT MET: { $items }.
inspector-unknown = Not known from the plans: { $items }.

## Before the pour
pour-title = Before you pour
pour-structure = Footing size, steel and anchors are by the structural plans, not by this sheet.
pour-ground = Ground and footings
pour-marked = Pipes and cables are marked. Trenches are safe.
pour-soil = Footings stand on undisturbed soil, no mud, no frost, no water.
pour-frost = Footings reach below the frost line: { $depth } under the ground outside, or as the local code asks.
pour-footing = Wall { $wall }: top of footing { $depth } under the ground outside.
pour-from = { $depth } from { $at } on
pour-pad = Pad { $name }: { $size }.
pour-piers = { $count ->
    [one] 1 pier has its footing: { $names }.
   *[other] { $count } piers have their footings: { $names }.
}
pour-forms = In the forms and walls
pour-square = Lengths, corners and diagonals are checked against the plan.
pour-steel = Steel is in place as the structural plans say.
pour-pocket = Beam pocket { $name } in wall { $wall }: { $size }, { $at } from the start of the wall.
pour-sleeve = Sleeve { $name } in wall { $wall }: { $size }, { $at } from the start of the wall.
pour-opening = Opening { $name } in wall { $wall }: { $size }, { $at } from the start of the wall.
pour-anchors = Anchor bolts are on hand, to be set while the concrete or grout is wet.
pour-top = The top course will be solid: grouted or capped. A coating cannot span an open cell.
pour-drain = The drain has a way out: slope, outlet or sump.
pour-radon = The radon vent pipe and its stone are in before the floor is closed.

## Before it is covered
cover-title = Before it is covered
cover-note = Tick each line when you have seen it yourself. What is covered cannot be seen again.
cover-visit = Before leaving: { $name }
cover-hides = This visit hides what is under it. Look first.
cover-photos = Photos taken of every wall, with the wall's name in the picture.
cover-tears = Tears, holes and loose tape patched.
cover-dry = Surfaces were dry and clean when they were coated, taped or sealed.

## Owner
owner-title = Your closed crawl space
owner-what = Under your house is a closed crawl space. Its walls are insulated and its ground is covered, so that it stays dry and near the temperature of the house. It is part of the house now.
owner-do = What keeps it working
owner-vents = Keep the old vents shut, all year.
owner-door = Keep the access door shut and its gasket whole.
owner-cut = Do not cut, tear or lift the sheets or the board. Have every hole sealed the same day.
owner-store = Store nothing on the sheet. Nothing that burns, no fuel, no paint.
owner-humidity = Look at the humidity once a month in the first year. If it stays over 60 %, call the builder.
owner-dehumidifier = Clean the dehumidifier's filter and check its drain twice a year.
owner-supply = Leave the supply air and its return open and the fan running.
owner-sensor = Change the battery of the humidity sensor once a year.
owner-outlet = Keep the drain outlet or sump clear. Look after heavy rain.
owner-termite = The bare strip of wall at the top, { $band } high, is left on purpose: it lets the inspector see termites. Have it looked at once a year and never cover it.
owner-gutters = Keep gutters, downspouts and the slope away from the house in order.
owner-first-year = Have the builder look at the space once in the first year.
owner-call = Stop and call
owner-water = Water stands on the sheet, or a pipe leaks: stay out of the water, switch off at the panel if you can reach it dry, and call.
owner-smell = It smells of gas, fuel or smoke: leave the house and call from outside.
owner-appliance = Never let anyone put in a burner, water heater or dryer that takes its air from this space or blows into it. That can kill.
owner-radon = Test the house for radon in the first heating season.
owner-radon-here = Radon is to be expected here. Test the house in the first heating season, and again every two years.
owner-built = What was built
owner-area = Floor of the space
owner-access = Access door
owner-access-in = in wall { $wall }

## Label
label-title = CLOSED CRAWL SPACE
label-what = This space is insulated and sealed. It is part of the house.
label-door = Keep this door shut.
label-vents = Do not open the vents.
label-burn = No burner, heater or dryer may take air from here or blow into here. Danger of death.
label-cut = Do not cut the sheets or the board. Seal every hole the same day.
label-store = Store nothing here. No flame, no fuel, no smoking.
label-running = Leave the air or dehumidifier running.
label-enter = Never go in alone. Stay out if water stands inside or if it smells of gas.

## Lines to sign on
sign-checked = Checked by
sign-seen = Seen by
sign-date = Date
sign-photos = Photo numbers
sign-inspector = Inspector
sign-permit = Permit number
sign-builder = Builder
sign-owner = Owner
sign-phone = Telephone

## Answers on site
ask-unknown = Nothing here is called “{ $name }”. There is: { $known }.
ask-no-log = There is no log of this house, so this is what the plans say.
ask-wall = Wall { $wall }: { $length } long inside, { $height } from the crawl floor to the top.
ask-wall-board = The top of the board lands { $by } below the top of the wall, { $up } above the crawl floor.
ask-wall-board-size = The board is { $height } high.
ask-wall-pieces = Pieces for it in the cut list: { $pieces }.
ask-wall-no-board = No board goes on the inside of this wall.
ask-left = For what is left you need:
ask-left-all = There is no log of this house. For the whole house you need:
ask-left-item = { $count } of { $what }
ask-left-none = Nothing more is needed.
ask-next = Next on { $here }: { $step } (visit: { $visit })
ask-next-then = Then: { $step }
ask-next-none = Nothing more goes on { $here }.
ask-next-seen = To be seen first: { $hold }.
ask-may-yes = Yes. By the log everything before “{ $visit }” is done and seen.
ask-may-no = NO. Before “{ $visit }”:
ask-may-never = The plans have no such visit. Ask the office.
ask-may-no-log = Not known: there is no log of this house. Before “{ $visit }” this must be so:
ask-may-part = “{ $visit }” is { $percent } % done.
ask-may-undone = “{ $visit }” is not done.
ask-may-unseen = Not passed after “{ $visit }”: { $hold }.
ask-may-hold = Passed after “{ $visit }”: { $hold }.
ask-may-look = Look for yourself too: the log only knows what was written in it.
ask-cut = Sheet { $number }: { $what }, { $size }. Cut from the lower left corner:
ask-cut-first = Piece { $mark }: { $size }, from the corner. For { $place }.
ask-cut-piece = Piece { $mark }: { $size }, starts { $x } along and { $y } up. For { $place }.
ask-cut-notch = Cut out { $size } for { $opening }, { $at } from its start and { $up } up.
ask-cut-keep = Keep: { $sizes }.
ask-cut-keep-none = Keep nothing of this sheet.
ask-cut-unknown = There is no sheet { $number }; the last one is { $last }.
ask-lap-over = { $place }: the { $over } goes OVER the { $under }, { $by }.
ask-lap-strips = Strips of { $what } lap { $by }, the later one over the one before.
ask-lap-hung = Lengths of { $what } lap { $side }, end over beginning.
ask-lap-hung-tail = Lengths of { $what } lap { $side }, end over beginning. The foot lies { $tail } out on the ground, UNDER the ground sheet.
ask-lap-none = Nothing laps in this house.
ask-fix-length = It is { $length } long.
ask-fix-bite = At least { $bite } of it must be in the wall.
ask-fix-edge = Keep { $edge } from every edge (common practice).
ask-fix-none = Nothing is fastened in this house.
ask-fix-piece = { $count ->
    [one] Piece { $number } ({ $size }, for { $place }): 1 fastener, { $edge } from the edges.
   *[other] Piece { $number } ({ $size }, for { $place }): { $count } fasteners, at least { $edge } from the edges.
}
ask-fix-unknown-piece = There is no piece { $number }; the last one is { $last }.
ask-inspect = After “{ $visit }” the inspector wants to see: { $hold }. That is:
ask-inspect-open = Not met yet by the plans: { $rule }.
ask-inspect-none = No inspection is left.
ask-change = With { $name } = { $value }:
ask-change-not = It cannot be built so; the plans do not work out.
ask-change-price = Price: { $before } becomes { $after } ({ $more }).
ask-change-no-price = Price: not known, a price is missing.
ask-change-sheets = Sheets of board: { $before } becomes { $after }.
ask-change-r = Walls on the whole, bare strip and films counted: { $before } becomes { $after }.
ask-change-r-board = Where the board is: { $before } becomes { $after }.
ask-change-days = Crew-days: { $before } becomes { $after }.
ask-change-errors = { $count ->
    [one] It brings 1 new error; see the check.
   *[other] It brings { $count } new errors; see the check.
}
ask-rain-no-log = There is no log of this house, so nobody knows what stands open. Look at coatings, board edges, loose tails and vents.
ask-rain-roof = The roof is on; rain does not reach the work inside.
ask-rain-nothing = By the log nothing stands open.
ask-rain-coat = Open: { $what } outside on { $place }, not covered until “{ $until }”. Look for blisters and washed soil.
ask-rain-edge = Open: the top edge of { $what } on { $place } drinks water until it is taped (“{ $until }”). Cover it now, and let it dry before taping.
ask-rain-tail = Open: the tail of { $what } on { $place } lies loose until “{ $until }”. Lift it, let the water out, wipe it clean.
ask-rain-vents = The vents stand open ({ $place }) until “{ $until }”. Leave them open to dry.
ask-rain-surfaces = Before “{ $visit }” goes on: surfaces for coating, tape and sealant dry and clean.
ask-rain-ground = The ground must read dry before the permanent sheet goes down. Write the reading in the log.
ask-rain-pump = Get standing water out first. No cords in water; nobody enters while it stands.

## On small drawings
drawn-top = top of wall
drawn-board-top = top of board, { $by } below
drawn-board-foot = board { $height } high
drawn-floor = crawl floor
drawn-grade = ground outside
drawn-wall = Wall and board
drawn-wall-says = The wall cut across, { $height } from the crawl floor to the top.
drawn-keep = keep { $size }
drawn-waste = waste
drawn-over = over: { $what }
drawn-under = under: { $what }
drawn-lap = The lap
drawn-lap-says = { $over } lies { $by } over { $under }.
drawn-anchors = { $count ->
    [one] 1 fastener, { $edge } from the edges
   *[other] { $count } fasteners, at least { $edge } from the edges
}
drawn-piece = Fasteners in this piece
