# Español como lo hablan las cuadrillas en los Estados Unidos. Los mismos mensajes y variables que en.ftl.

## Nombres. Los planos los dan en su propio idioma; aquí se dice qué clase de cosa es cada uno.
name-coating = recubrimiento «{ $name }»
name-sheet = lámina «{ $name }»
name-board = placa de espuma «{ $name }»
name-tape = cinta «{ $name }»
name-sealant = sellador «{ $name }»
name-fastener = fijador «{ $name }»
name-drain = tubo de drenaje «{ $name }»
name-stone = piedra «{ $name }»
name-masonry = muro «{ $name }»
name-lumber = madera «{ $name }»
name-equipment = pieza «{ $name }»
name-pier-wrap = lámina del pilar «{ $name }»
names-from-to = { $from } a { $to }
and-more = { $first } y { $count } más

unit-sheet = { $count ->
    [one] hoja
   *[other] hojas
}
unit-roll = { $count ->
    [one] rollo
   *[other] rollos
}
unit-tube = { $count ->
    [one] tubo
   *[other] tubos
}
unit-pail = { $count ->
    [one] cubeta
   *[other] cubetas
}
unit-box = { $count ->
    [one] caja
   *[other] cajas
}
unit-bag = { $count ->
    [one] bolsa
   *[other] bolsas
}
unit-piece = { $count ->
    [one] pieza
   *[other] piezas
}
unit-yard = { $count ->
    [one] yarda cúbica
   *[other] yardas cúbicas
}
unit-cubic-meter = { $count ->
    [one] metro cúbico
   *[other] metros cúbicos
}

## Lugares
level-datum = la marca cero de los planos
level-top = la parte de arriba del muro
level-pier-top = la parte de arriba del pilar
level-sill = la cara de abajo de la solera
level-grade = el terreno de afuera
level-floor = el piso de tierra
level-footing = la parte de arriba de la zapata
level-above = { $by } arriba de { $level }
level-below = { $by } abajo de { $level }
edge-top = el borde de arriba de { $of }
edge-bottom = el borde de abajo de { $of }
edge-ends = los dos bordes de los extremos de { $of }
edge-joints = todas las juntas de { $of }
edge-heads = todas las cabezas de { $of }
edge-laps = todos los traslapes de { $of }
edge-cuts = todos los cortes de { $of }
edge-perimeter = todo el contorno de { $of }
edge-head = la parte de arriba del muro
edge-pier-head = la parte de arriba del pilar
edge-footing = la zapata
face-wall-outside = Muros, por fuera
face-wall-inside = Muros, por dentro
face-wall-head = Arriba de los muros
face-pier-head = Arriba de los pilares
face-pier = Pilares
face-opening = Puertas y ventilas
face-ground = Piso de tierra
face-joint-wall = Al pie de los muros
face-joint-pier = Al pie de los pilares

## Pasos
step-coat = Aplique { $what }, desde { $from } hasta { $to }.
step-coat-edge = Aplique { $what } en { $edge }.
step-coat-all = Aplique { $what } en toda la superficie.
step-drain = Ponga { $what } a lo largo de la zapata.
step-fill = Rellene con { $what }, desde { $from } hasta { $to }.
step-fill-all = Rellene con { $what }.
step-lay = Tienda { $what } en el suelo. Traslape las tiras { $by }.
step-lay-all = Tienda { $what } en el suelo.
step-hang = Cuelgue { $what } desde { $from } hasta { $to }.
step-hang-tail = Cuelgue { $what } desde { $from } hasta { $to }. Deje { $by } más sobre el suelo.
step-set = Coloque { $what } desde { $from } hasta { $to }.
step-set-all = Coloque { $what }.
step-fasten = Fije { $what } con { $with }.
step-fasten-every = Fije { $what } con { $with }, uno cada { $every }.
step-fasten-each = Fije { $what } con { $with }, { $count } por { $unit } entera.
step-cap = Cubra { $edge } con { $with }.
step-tape = Ponga { $with } en { $edge }.
step-seal = Ponga un cordón de { $bead } de { $with } a lo largo de { $edge }.
step-seal-any = Ponga un cordón de { $with } a lo largo de { $edge }.
step-lap-over = Traslape { $what } { $by } POR ENCIMA de { $other }.
step-lap-under = Traslape { $what } { $by } POR DEBAJO de { $other }.
step-remove = Levante { $what } y sáquela.

## Lo que va antes que todo
gate-flood = ALTO: zona de inundación. Quizá aquí no se permita cerrar este espacio. Pregunte primero al departamento de construcción.
gate-draft = ALTO: un quemador o calentador de agua toma su aire de este espacio. Cerrarlo puede envenenar a la gente. No lo cierre hasta que un contratista con licencia lo haya cambiado.
gate-radon = Aquí puede haber radón y los planos no tienen tubo de ventilación. Pregunte antes de cerrar. Después haga la prueba de radón en la casa.
gate-radon-pipe = Aquí puede haber radón. Deje el tubo de ventilación abierto, y sellado donde pasa por la lámina. Después haga la prueba de radón en la casa.
gate-errors = { $count ->
    [one] Los planos todavía tienen 1 error. Pregunte en la oficina antes de trabajar con esta hoja.
   *[other] Los planos todavía tienen { $count } errores. Pregunte en la oficina antes de trabajar con esta hoja.
}
care-head = SEGURIDAD
care-dig = Excavación: primero haga marcar tubos y cables. Nadie en una zanja honda sin apuntalar. Tierra y máquinas lejos del borde.
care-confined = Espacio bajo el piso: nunca solo. Con aire en movimiento, luz y una salida. No entre si hay agua estancada o si huele a gas.
care-fasten = Herramientas de pólvora y clavos de impacto: solo personal capacitado. Protección de ojos y oídos. Nadie detrás del muro. No dispare en los bordes de bloques huecos.
care-foam = La espuma arde. Nada de soplete, soldadura ni cigarro cerca. Esta espuma debe cubrirse con una barrera contra el fuego, como pide el código, antes de usar el espacio.
care-foam-tested = La espuma arde. Nada de soplete, soldadura ni cigarro cerca. No dañe el aluminio: solo la placa que dicen los planos puede quedar sin cubrir.
care-fumes = Los recubrimientos y selladores sueltan vapores. Lea la etiqueta, mueva el aire, sin llama.
care-electric = Electricidad: nada de extensiones en el agua, use GFCI. Los cables y tableros son del electricista.
care-burn = Nunca cierre un espacio del que un quemador toma su aire.
need-graded = Primero: el suelo está nivelado.
need-drained = Primero: el drenaje funciona y no hay agua estancada.
need-dry = Primero: el suelo está seco y la lectura está anotada.
need-vents-open = Primero: las ventilas están abiertas.
need-other = Primero: { $what }.
foot = Hecho a partir de los planos. Nada aquí calcula la estructura: zapatas, muros, pilares, vigas y fijadores de carga son según el código local y un profesional con licencia. Si la obra no es como esta hoja, pare y pregunte.

## Hoja de la cuadrilla
crew-title = Hoja de la cuadrilla
crew-walls = Muros: todas las medidas son por dentro
crew-wall = Muro
crew-length = Largo
crew-height = Alto
crew-board-top = Placa: abajo de arriba
crew-pieces = Piezas de placa
crew-at-top = hasta arriba
crew-existing = { $name } (muro viejo, déjelo como está)
crew-piers = { $count ->
    [one] 1 pilar: { $names }. Clavos: { $pins }.
   *[other] { $count } pilares: { $names }. Clavos en cada uno: { $pins }.
}
crew-visit = Visita: { $name }
crew-stop = ALTO. Inspección: { $hold }.
crew-stops = Nadie sigue después de un ALTO hasta que se apruebe su inspección. El alto es del piso de tierra hasta arriba del muro.
key-plan-title = Dónde está cada cosa
key-plan-says = Croquis: { $walls } muros con su nombre y su largo por dentro, { $piers } pilares; los círculos son aberturas.

## Lista de pedido
order-title = Lista de pedido
order-note = Cada cosa está en la primera visita que la necesita. Compare cada entrega con su etiqueta antes de usarla.
order-incomplete = INCOMPLETA: algo no se pudo contar. Pregunte en la oficina.
order-come = Llegó
order-count = Cuánto
order-what = Qué
order-size = Medida
order-for = Debe estar aquí para: { $visit }
order-any = En cualquier momento
order-also = { $what } (también para { $visits })
order-packs = { $packs } × { $each } { $unit }
order-units = { $units } { $unit }

## Hoja del inspector
inspector-title = Hoja del inspector
inspector-note = Lo que los códigos nombrados en los planos piden de esta casa, y lo que dicen los planos. No reemplaza el código adoptado, sus cambios locales ni la inspección en la obra. Los textos de reglas e inspecciones son los de los códigos y los planos.
inspector-holds = Inspecciones en la obra
inspector-hold = { $hold } (al final de { $visit })
inspector-points = Puntos del código
inspector-point = Punto
inspector-met = Dónde se cumple
inspector-evidence = Con estos datos
inspector-none = Los planos no nombran ningún código con un punto que valga aquí.
inspector-house = la casa
inspector-idle = { $count ->
    [one] 1 punto más no tiene nada que ver en esta casa.
   *[other] { $count } puntos más no tienen nada que ver en esta casa.
}
inspector-met-all = Se cumple en los { $count }: { $items }.
inspector-met-at = Se cumple: { $items }.
inspector-not-met = NO SE CUMPLE: { $items }.
inspector-unknown = Los planos no lo dicen: { $items }.

## Antes de colar
pour-title = Antes de colar
pour-structure = El tamaño de las zapatas, el acero y las anclas son según los planos estructurales, no según esta hoja.
pour-ground = Suelo y zapatas
pour-marked = Tubos y cables están marcados. Las zanjas son seguras.
pour-soil = Las zapatas están sobre suelo firme sin remover, sin lodo, sin hielo, sin agua.
pour-frost = Las zapatas llegan abajo de la línea de congelación: { $depth } abajo del terreno de afuera, o lo que pida el código local.
pour-footing = Muro { $wall }: la zapata queda { $depth } abajo del terreno de afuera.
pour-from = { $depth } desde { $at }
pour-pad = Base { $name }: { $size }.
pour-piers = { $count ->
    [one] 1 pilar tiene su zapata: { $names }.
   *[other] { $count } pilares tienen su zapata: { $names }.
}
pour-forms = En la cimbra y los muros
pour-square = Largos, esquinas y diagonales revisados con el plano.
pour-steel = El acero está puesto como dicen los planos estructurales.
pour-pocket = Hueco de viga { $name } en el muro { $wall }: { $size }, a { $at } del inicio del muro.
pour-sleeve = Pasatubo { $name } en el muro { $wall }: { $size }, a { $at } del inicio del muro.
pour-opening = Abertura { $name } en el muro { $wall }: { $size }, a { $at } del inicio del muro.
pour-anchors = Los pernos de anclaje están a la mano, para ponerlos con el concreto o grout fresco.
pour-top = La última hilada quedará sólida: rellena o tapada. Un recubrimiento no cubre una celda abierta.
pour-drain = El drenaje tiene salida: pendiente, desagüe o cárcamo.
pour-radon = El tubo de radón y su piedra están puestos antes de cerrar el piso.

## Antes de tapar
cover-title = Antes de tapar
cover-note = Marque cada línea cuando la haya visto usted mismo. Lo que se tapa ya no se puede ver.
cover-visit = Antes de irse: { $name }
cover-hides = Esta visita tapa lo que está debajo. Revise primero.
cover-photos = Fotos de cada muro, con el nombre del muro en la foto.
cover-tears = Roturas, hoyos y cinta suelta reparados.
cover-dry = Las superficies estaban secas y limpias al recubrir, encintar o sellar.

## Dueño
owner-title = El espacio cerrado debajo de su casa
owner-what = Debajo de su casa hay un espacio cerrado. Sus muros tienen aislamiento y su suelo está cubierto, para que quede seco y cerca de la temperatura de la casa. Ahora es parte de la casa.
owner-do = Para que siga funcionando
owner-vents = Deje cerradas las ventilas viejas, todo el año.
owner-door = Deje cerrada la puerta de acceso y cuide su empaque.
owner-cut = No corte, rompa ni levante las láminas o la placa. Haga sellar cada hoyo el mismo día.
owner-store = No guarde nada sobre la lámina. Nada que arda, ni combustible ni pintura.
owner-humidity = Mire la humedad una vez al mes el primer año. Si sigue arriba de 60 %, llame al constructor.
owner-dehumidifier = Limpie el filtro del deshumidificador y revise su desagüe dos veces al año.
owner-supply = Deje abiertos el aire de entrada y su regreso, y el ventilador encendido.
owner-sensor = Cambie la pila del sensor de humedad una vez al año.
owner-outlet = Mantenga libre la salida del drenaje o el cárcamo. Revise después de lluvias fuertes.
owner-termite = La franja descubierta arriba del muro, de { $band } de alto, está así a propósito: deja ver las termitas. Haga que la revisen una vez al año y no la tape nunca.
owner-gutters = Mantenga en orden las canaletas, las bajadas y la pendiente del terreno hacia afuera.
owner-first-year = Pida al constructor que revise el espacio una vez en el primer año.
owner-call = Pare y llame
owner-water = Hay agua sobre la lámina o gotea un tubo: no pise el agua, corte la luz en el tablero si llega a él en seco, y llame.
owner-smell = Huele a gas, combustible o humo: salga de la casa y llame desde afuera.
owner-appliance = Nunca deje poner un quemador, calentador de agua o secadora que tome aire de este espacio o sople hacia él. Puede matar.
owner-radon = Haga la prueba de radón en la casa en el primer invierno.
owner-radon-here = Aquí puede haber radón. Haga la prueba en el primer invierno, y otra vez cada dos años.
owner-built = Lo que se construyó
owner-area = Piso del espacio
owner-access = Puerta de acceso
owner-access-in = en el muro { $wall }

## Etiqueta
label-title = ESPACIO CERRADO
label-what = Este espacio está aislado y sellado. Es parte de la casa.
label-door = Deje esta puerta cerrada.
label-vents = No abra las ventilas.
label-burn = Ningún quemador, calentador o secadora puede tomar aire de aquí ni soplar hacia aquí. Peligro de muerte.
label-cut = No corte las láminas ni la placa. Selle cada hoyo el mismo día.
label-store = No guarde nada aquí. Sin llama, sin combustible, sin fumar.
label-running = Deje encendido el aire o el deshumidificador.
label-enter = Nunca entre solo. No entre si hay agua adentro o si huele a gas.

## Líneas para firmar
sign-checked = Revisó
sign-seen = Vio
sign-date = Fecha
sign-photos = Números de fotos
sign-inspector = Inspector
sign-permit = Número de permiso
sign-builder = Constructor
sign-owner = Dueño
sign-phone = Teléfono

## Respuestas en la obra
ask-unknown = Aquí nada se llama «{ $name }». Hay: { $known }.
ask-no-log = Esta casa no tiene bitácora; esto es lo que dicen los planos.
ask-wall = Muro { $wall }: { $length } de largo por dentro, { $height } del piso de tierra hasta arriba.
ask-wall-board = La parte de arriba de la placa queda { $by } abajo de la parte de arriba del muro, a { $up } del piso de tierra.
ask-wall-board-size = La placa mide { $height } de alto.
ask-wall-pieces = Sus piezas en la lista de cortes: { $pieces }.
ask-wall-no-board = Este muro no lleva placa por dentro.
ask-left = Para lo que falta se necesita:
ask-left-all = Esta casa no tiene bitácora. Para toda la casa se necesita:
ask-left-item = { $count } de { $what }
ask-left-none = No hace falta nada más.
ask-next = Sigue en { $here }: { $step } (visita: { $visit })
ask-next-then = Luego: { $step }
ask-next-none = En { $here } ya no va nada más.
ask-next-seen = Antes debe verse: { $hold }.
ask-may-yes = Sí. Según la bitácora, todo lo anterior a «{ $visit }» está hecho y visto.
ask-may-no = NO. Antes de «{ $visit }»:
ask-may-never = Los planos no tienen esa visita. Pregunte en la oficina.
ask-may-no-log = No se sabe: esta casa no tiene bitácora. Antes de «{ $visit }» debe cumplirse:
ask-may-part = «{ $visit }» va en { $percent } %.
ask-may-undone = «{ $visit }» no está hecho.
ask-may-unseen = Sin aprobar después de «{ $visit }»: { $hold }.
ask-may-hold = Aprobado después de «{ $visit }»: { $hold }.
ask-may-look = Revise también usted: la bitácora solo sabe lo que se anotó.
ask-cut = Hoja { $number }: { $what }, { $size }. Corte desde la esquina de abajo a la izquierda:
ask-cut-first = Pieza { $mark }: { $size }, desde la esquina. Para { $place }.
ask-cut-piece = Pieza { $mark }: { $size }, empieza a { $x } de largo y { $y } hacia arriba. Para { $place }.
ask-cut-notch = Recorte { $size } para { $opening }, a { $at } de su inicio y { $up } hacia arriba.
ask-cut-keep = Guarde: { $sizes }.
ask-cut-keep-none = De esta hoja no guarde nada.
ask-cut-unknown = No hay hoja { $number }; la última es { $last }.
ask-lap-over = { $place }: { $over } va POR ENCIMA de { $under }, { $by }.
ask-lap-strips = Las tiras de { $what } se traslapan { $by }, la segunda encima de la primera.
ask-lap-hung = Los tramos de { $what } se traslapan { $side }, el final sobre el principio.
ask-lap-hung-tail = Los tramos de { $what } se traslapan { $side }, el final sobre el principio. El pie queda { $tail } sobre el suelo, POR DEBAJO de la lámina del piso.
ask-lap-none = En esta casa nada se traslapa.
ask-fix-length = Mide { $length } de largo.
ask-fix-bite = Por lo menos { $bite } deben quedar dentro del muro.
ask-fix-edge = Deje { $edge } hasta cada borde (práctica común).
ask-fix-none = En esta casa nada se fija.
ask-fix-piece = { $count ->
    [one] Pieza { $number } ({ $size }, para { $place }): 1 fijador, a { $edge } de los bordes.
   *[other] Pieza { $number } ({ $size }, para { $place }): { $count } fijadores, por lo menos a { $edge } de los bordes.
}
ask-fix-unknown-piece = No hay pieza { $number }; la última es { $last }.
ask-inspect = Después de «{ $visit }» el inspector quiere ver: { $hold }. Es decir:
ask-inspect-open = Los planos todavía no lo cumplen: { $rule }.
ask-inspect-none = Ya no falta ninguna inspección.
ask-change = Con { $name } = { $value }:
ask-change-not = Así no se puede construir; los planos no salen.
ask-change-price = Precio: { $before } pasa a { $after } ({ $more }).
ask-change-no-price = Precio: no se sabe, falta un precio.
ask-change-sheets = Hojas de placa: { $before } pasa a { $after }.
ask-change-r = Muros en total, contando la franja descubierta y el aire: { $before } pasa a { $after }.
ask-change-r-board = Donde hay placa: { $before } pasa a { $after }.
ask-change-days = Días de cuadrilla: { $before } pasa a { $after }.
ask-change-errors = { $count ->
    [one] Trae 1 error nuevo; vea la revisión.
   *[other] Trae { $count } errores nuevos; vea la revisión.
}
ask-rain-no-log = Esta casa no tiene bitácora; nadie sabe qué está abierto. Revise recubrimientos, bordes de placa, láminas sueltas y ventilas.
ask-rain-roof = El techo está puesto; la lluvia no llega al trabajo de adentro.
ask-rain-nothing = Según la bitácora no hay nada abierto.
ask-rain-coat = Abierto: { $what } por fuera en { $place }, sin tapar hasta «{ $until }». Busque ampollas y tierra lavada.
ask-rain-edge = Abierto: el borde de arriba de { $what } en { $place } chupa agua hasta que se encinte («{ $until }»). Cúbralo ya, y déjelo secar antes de encintar.
ask-rain-tail = Abierto: el faldón de { $what } en { $place } está suelto hasta «{ $until }». Levántelo, saque el agua, límpielo.
ask-rain-vents = Las ventilas están abiertas ({ $place }) hasta «{ $until }». Déjelas abiertas para que seque.
ask-rain-surfaces = Antes de seguir con «{ $visit }»: superficies secas y limpias para recubrir, encintar y sellar.
ask-rain-ground = La lectura del suelo debe dar seco antes de tender la lámina permanente. Anótela en la bitácora.
ask-rain-pump = Primero saque el agua estancada. Nada de extensiones en el agua; nadie entra mientras haya agua.

## En los dibujos pequeños
drawn-top = arriba del muro
drawn-board-top = arriba de la placa, { $by } abajo
drawn-board-foot = placa de { $height } de alto
drawn-floor = piso de tierra
drawn-grade = terreno de afuera
drawn-wall = Muro y placa
drawn-wall-says = El muro cortado, { $height } del piso de tierra hasta arriba.
drawn-keep = guarde { $size }
drawn-waste = desperdicio
drawn-over = encima: { $what }
drawn-under = debajo: { $what }
drawn-lap = El traslape
drawn-lap-says = { $over } va { $by } encima de { $under }.
drawn-anchors = { $count ->
    [one] 1 fijador, a { $edge } de los bordes
   *[other] { $count } fijadores, por lo menos a { $edge } de los bordes
}
drawn-piece = Fijadores en esta pieza
