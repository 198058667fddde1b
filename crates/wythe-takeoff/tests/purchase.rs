//! Purchase units against handbook arithmetic.

use proptest::prelude::*;
use uom::si::area::{square_foot, square_inch};
use uom::si::f64::{Area, Length, Ratio, Volume};
use uom::si::length::{foot, inch, mil};
use uom::si::ratio::{percent, ratio};
use uom::si::volume::{cubic_foot, cubic_inch, fluid_ounce, gallon};
use wythe_takeoff::purchase::*;

fn close(a: f64, b: f64, relative: f64) {
    assert!((a - b).abs() <= relative * b.abs(), "{a} is not {b}");
}

fn inches(v: f64) -> Length {
    Length::new::<inch>(v)
}

fn none() -> Ratio {
    Ratio::new::<ratio>(0.0)
}

/// One US fluid ounce is 231/128 in3 exactly; 10.1 fl oz is 18.227 in3, which is 13.75 ft of
/// 3/8 in round bead and 30.94 ft of 1/4 in; 28 fl oz gives 38.13 ft of 3/8 in.
#[test]
fn bead_lengths_of_a_cartridge() {
    for (ounces, diameter, feet) in [(10.1, 0.375, 13.75), (10.1, 0.25, 30.94), (28.0, 0.375, 38.13)] {
        let volume = Volume::new::<cubic_inch>(ounces * 1.804_687_5);
        close(volume.get::<fluid_ounce>(), ounces, 1e-5);
        let section = bead_section(BeadShape::Round { diameter: inches(diameter) }).expect("a bead");
        let yields: Length = volume / section;
        close(yields.get::<foot>(), feet, 5e-4);
    }
}

/// 141 ft of 3/8 in bead with 15 % waste from 10.1 fl oz tubes: 141/13.75 x 1.15 = 11.79, so 12.
#[test]
fn tubes_for_a_house() {
    let tube = Cartridge { volume: Volume::new::<cubic_inch>(10.1 * 1.804_687_5) };
    let shape = BeadShape::Round { diameter: inches(0.375) };
    let bought = cartridges(shape, Length::new::<foot>(141.0), tube, Ratio::new::<percent>(15.0)).expect("a purchase");
    assert_eq!(bought.units, 12);
    close(bought.needed.get::<ratio>(), 11.79, 1e-3);
    close(bought.remainder.get::<ratio>(), 0.21, 2e-2);
}

#[test]
fn bead_sections() {
    let fillet = bead_section(BeadShape::Fillet { leg: inches(0.5) }).expect("a bead");
    close(fillet.get::<square_inch>(), 0.125, 1e-12);
    // A backer as wide as the joint is a half circle at the top: section = w t + w r - pi r^2/2.
    let joint = BeadShape::JointWithBacker { width: inches(0.5), throat: inches(0.25), backer: inches(0.5) };
    let expected = 0.125 + 0.5 * 0.25 - std::f64::consts::PI * 0.0625 / 2.0;
    close(bead_section(joint).expect("a bead").get::<square_inch>(), expected, 1e-9);
    // A very thick backer is nearly flat: the plain rectangle.
    let flat = BeadShape::JointWithBacker { width: inches(0.5), throat: inches(0.25), backer: inches(500.0) };
    close(bead_section(flat).expect("a bead").get::<square_inch>(), 0.125, 1e-2);
    let loose = BeadShape::JointWithBacker { width: inches(0.5), throat: inches(0.25), backer: inches(0.4) };
    assert_eq!(bead_section(loose), Err(BeadError::LooseBacker));
}

/// 1604.17 ft2 a gallon a mil; 60 mil dry at 65 % solids is 92.31 mil wet and 17.38 ft2 a gallon.
#[test]
fn coating_coverage() {
    let one_gallon = Volume::new::<cubic_inch>(231.0);
    close(one_gallon.get::<gallon>(), 1.0, 1e-6);
    let area = coverage(one_gallon, Length::new::<mil>(1.0)).expect("a film");
    close(area.get::<square_foot>(), 1604.17, 1e-5);
    let coat = Coat {
        dry_film: Length::new::<mil>(60.0),
        solids: Ratio::new::<percent>(65.0),
        wet_film_per_pass: Length::new::<mil>(50.0),
    };
    close(coat.wet_film().expect("a film").get::<mil>(), 92.31, 1e-4);
    assert_eq!(coat.passes(), Ok(2));
    let each = coverage(one_gallon, coat.wet_film().expect("a film")).expect("a film");
    close(each.get::<square_foot>(), 17.38, 1e-3);
    // 470 ft2 from 5 gal pails: 470 / 17.38 / 5 = 5.41, so 6.
    let bought = pails(&coat, Area::new::<square_foot>(470.0), one_gallon * 5.0, none()).expect("a purchase");
    assert_eq!(bought.units, 6);
}

/// 96 x 28 in, 24 in spacing, 4 in from the edge: along (96 - 8)/24 = 3.67, so 5; across
/// (28 - 8)/24, so 2; ten in all. A 6 in offcut takes the least number.
#[test]
fn fasteners_in_cut_pieces() {
    let rules = FastenerRules { spacing: inches(24.0), edge: inches(4.0), least: 4 };
    assert_eq!(fasteners_for_piece(inches(96.0), inches(28.0), &rules), Ok(10));
    assert_eq!(fasteners_for_piece(inches(8.0), inches(8.0), &rules), Ok(4));
    assert_eq!(fasteners_for_piece(inches(6.0), inches(28.0), &rules), Err(FastenerError::TooNarrow));
    assert_eq!(fasteners_for_length(inches(480.0), &FastenerRules { edge: inches(0.0), least: 2, ..rules }), Ok(21));
}

/// Two seams of 40 ft and 6 in overlap each: 81 ft from 180 ft rolls is one roll.
#[test]
fn tape() {
    let roll = TapeRoll { length: Length::new::<foot>(180.0), overlap: inches(6.0) };
    let strips = [Length::new::<foot>(40.0); 2];
    let bought = tape_rolls(&strips, roll, none()).expect("a purchase");
    assert_eq!(bought.units, 1);
    close(bought.needed.get::<ratio>(), 81.0 / 180.0, 1e-9);
    let more = tape_rolls(&[Length::new::<foot>(400.0)], roll, none()).expect("a purchase");
    assert_eq!(more.units, 3);
    assert_eq!(
        tape_rolls(&strips, TapeRoll { length: inches(6.0), overlap: inches(6.0) }, none()),
        Err(TapeError::Roll)
    );
}

/// 12 x 16 in of stone with a 4 in pipe over 100 ft: (192 - 12.566)/144 x 100 = 124.6 ft3.
#[test]
fn drain() {
    let section = Trench {
        length: Length::new::<foot>(100.0),
        width: inches(12.0),
        depth: inches(16.0),
        pipe: inches(4.0),
        fabric_lap: inches(12.0),
        fabric_all_round: true,
    };
    let needs = trench(&section).expect("a trench");
    close(needs.stone.get::<cubic_foot>(), 124.607, 1e-4);
    close(needs.fabric.get::<square_foot>(), (2.0 * 28.0 + 12.0) / 12.0 * 100.0, 1e-9);
    assert_eq!(trench(&Trench { pipe: inches(14.0), ..section }), Err(TrenchError::PipeTooLarge));
}

proptest! {
    #[test]
    fn units_cover_the_need_and_no_unit_is_idle(net in 0.0_f64..1e6, waste in 0.0_f64..0.5) {
        let p = whole_units(Ratio::new::<ratio>(net), Ratio::new::<ratio>(waste)).expect("a need");
        let units = p.units as f64;
        prop_assert!(units >= p.needed.get::<ratio>() * (1.0 - 1e-8));
        prop_assert!(units < p.needed.get::<ratio>() + 1.0);
        prop_assert!(p.remainder.get::<ratio>() >= 0.0 && p.waste_share.get::<ratio>() < 1.0 + 1e-9);
    }

    #[test]
    fn nonsense_is_an_error_not_a_panic(v in prop::num::f64::ANY) {
        let odd = Ratio::new::<ratio>(v);
        if v.is_nan() || v < 0.0 {
            prop_assert!(whole_units(odd, none()).is_err());
            prop_assert!(whole_units(none(), odd).is_err());
        }
        let _ = bead_section(BeadShape::Round { diameter: inches(v) });
        let _ = tape_rolls(&[inches(v)], TapeRoll { length: inches(v), overlap: inches(v) }, none());
    }
}
