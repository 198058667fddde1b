//! Schedules by hand on a wall calendar, and the calendar file against RFC 5545.

use jiff::civil::{Date, date};
use proptest::prelude::*;
use std::collections::BTreeSet;
use wythe_takeoff::schedule::*;

fn calendar() -> WorkCalendar {
    WorkCalendar { week: WorkWeek::FIVE_DAYS, holidays: BTreeSet::new(), weather: BTreeSet::new(), drying_days: 0 }
}

fn activity(id: &str, days: u32, after: &[&str]) -> Activity {
    Activity {
        id: id.into(),
        name: id.into(),
        phase: id.into(),
        days,
        crew: None,
        open_to_weather: false,
        after: after.iter().map(|a| After::done(a)).collect(),
        hold: None,
        needs: vec![],
    }
}

/// Monday 2 March 2026: coat 2 days (2, 3), inspection next working day (4), cure 3 days (5, 6, 7),
/// backfill on the next working day, Monday 9, for 1 day; framing from 10.
fn job() -> Vec<Activity> {
    let mut coat = activity("coat", 2, &[]);
    coat.open_to_weather = true;
    coat.hold = Some(Hold { what: "coating and drain seen".into(), days: 1 });
    coat.crew = Some("masons".into());
    coat.needs = vec!["6 pails of wall membrane".into()];
    let mut fill = activity("fill", 1, &[]);
    fill.after = vec![After { id: "coat".into(), cure_days: 3, working_days: 0 }];
    let order = activity("order", 1, &[]);
    let frame = activity("frame", 4, &["fill", "order"]);
    vec![frame, fill, coat, order]
}

fn of<'a>(s: &'a Schedule, id: &str) -> &'a Scheduled {
    s.activities.iter().find(|a| a.activity.id == id).expect("in the schedule")
}

#[test]
fn dates_by_hand() {
    let s = plan(&job(), &calendar(), date(2026, 3, 2)).expect("a schedule");
    assert_eq!((of(&s, "coat").first, of(&s, "coat").last), (date(2026, 3, 2), date(2026, 3, 3)));
    assert_eq!(of(&s, "coat").inspected, Some(date(2026, 3, 4)));
    assert_eq!(of(&s, "fill").first, date(2026, 3, 9));
    assert_eq!((of(&s, "frame").first, s.end), (date(2026, 3, 10), date(2026, 3, 13)));
    let critical: Vec<&str> = s.critical_path().collect();
    // The cure ends on a Saturday: one day later it would end on Sunday, and the fill still be on Monday.
    assert_eq!(critical, ["fill", "frame"]);
    assert_eq!(of(&s, "coat").float, 1);
    // Ordering may slip from Monday 2 to Monday 9: five working days.
    assert_eq!((of(&s, "order").latest_first, of(&s, "order").float), (date(2026, 3, 9), 5));
    assert_eq!(s.crew_days().get("coat"), Some(&2));
}

/// Rain on Tuesday 3 and a day to dry puts the second day of coating on Thursday 5.
#[test]
fn rain_and_holidays_put_work_off() {
    let mut wet = calendar();
    wet.weather.insert(date(2026, 3, 3));
    wet.drying_days = 1;
    let s = plan(&job(), &wet, date(2026, 3, 2)).expect("a schedule");
    assert_eq!(of(&s, "coat").last, date(2026, 3, 5));
    assert_eq!(of(&s, "coat").inspected, Some(date(2026, 3, 6)));
    // Ready Saturday 7, three days of cure: Tuesday 10.
    assert_eq!(of(&s, "fill").first, date(2026, 3, 10));
    let mut off = calendar();
    off.holidays.insert(date(2026, 3, 9));
    let s = plan(&job(), &off, date(2026, 3, 2)).expect("a schedule");
    assert_eq!(of(&s, "fill").first, date(2026, 3, 10));
}

#[test]
fn one_crew_is_in_one_place() {
    let mut list = vec![activity("a", 2, &[]), activity("b", 3, &[]), activity("c", 1, &["a"])];
    for a in &mut list {
        a.crew = Some("crew".into());
    }
    let s = plan(&list, &calendar(), date(2026, 3, 2)).expect("a schedule");
    let mut days: Vec<(Date, Date)> = s.activities.iter().map(|a| (a.first, a.last)).collect();
    days.sort();
    assert!(days.windows(2).all(|w| w[0].1 < w[1].0), "{days:?}");
    assert_eq!(s.end, date(2026, 3, 9));
}

#[test]
fn site_days_list_what_is_needed() {
    let c = calendar();
    let s = plan(&job(), &c, date(2026, 3, 2)).expect("a schedule");
    let days = site_days(&s, |d, open| c.works(d, open));
    let monday = &days[&date(2026, 3, 2)];
    assert!(monday.delivered.contains("6 pails of wall membrane"));
    assert_eq!(monday.activities, ["coat", "order"]);
    assert!(days[&date(2026, 3, 3)].delivered.is_empty());
    assert!(days[&date(2026, 3, 3)].needs.contains("6 pails of wall membrane"));
    assert_eq!(days[&date(2026, 3, 4)].inspections, ["coating and drain seen"]);
    assert!(!days.contains_key(&date(2026, 3, 7)));
}

#[test]
fn impossible_networks_are_errors() {
    let start = date(2026, 3, 2);
    let ring = [activity("a", 1, &["b"]), activity("b", 1, &["a"]), activity("c", 1, &[])];
    assert_eq!(plan(&ring, &calendar(), start), Err(ScheduleError::Cycle(vec!["a".into(), "b".into()])));
    let lost = [activity("a", 1, &["z"])];
    assert!(matches!(plan(&lost, &calendar(), start), Err(ScheduleError::UnknownPredecessor { .. })));
    let twice = [activity("a", 1, &[]), activity("a", 1, &[])];
    assert_eq!(plan(&twice, &calendar(), start), Err(ScheduleError::DuplicateId("a".into())));
    let idle = WorkCalendar { week: WorkWeek::of(&[]), ..calendar() };
    assert_eq!(plan(&[], &idle, start), Err(ScheduleError::NoWorkingDay));
    let forever = [activity("a", 100_000, &[])];
    assert_eq!(plan(&forever, &calendar(), start), Err(ScheduleError::TooLong("a".into())));
    assert_eq!(plan(&[activity("a", u32::MAX, &[])], &calendar(), Date::MAX), Err(ScheduleError::TooLong("a".into())));
}

/// RFC 5545: lines end in CR LF and hold at most 75 octets (3.1); text escapes commas (3.3.11);
/// VERSION and PRODID once (3.6); every event has UID and DTSTAMP (3.6.1); DTEND is exclusive.
#[test]
fn the_calendar_file() {
    let mut list = job();
    list[2].name = "Coat the walls, cap to footing; a long name so that the line has to be folded by the writer".into();
    let s = plan(&list, &calendar(), date(2026, 3, 2)).expect("a schedule");
    let rules = CalendarRules {
        name: "Unit 4".into(),
        domain: "unit-4.example".into(),
        stamp: date(2026, 2, 20).at(12, 0, 0, 0),
    };
    let text = to_icalendar(&s, &rules).expect("text");
    assert_eq!(text, to_icalendar(&s, &rules).expect("text"));
    assert!(text.starts_with("BEGIN:VCALENDAR\r\n") && text.ends_with("END:VCALENDAR\r\n"));
    assert!(text.lines().all(|l| l.len() <= 75));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    for needed in [
        "VERSION:2.0",
        "PRODID:",
        "DTSTART;VALUE=DATE:20260302",
        "DTEND;VALUE=DATE:20260304",
        "UID:coat@unit-4.example",
        "UID:coat-inspection@unit-4.example",
    ] {
        assert!(text.contains(needed), "{needed} in {text}");
    }
    let events = text.matches("BEGIN:VEVENT").count();
    assert_eq!(events, 5);
    assert_eq!(text.matches("DTSTAMP:20260220T120000Z").count(), events);
    assert_eq!(text.matches("DTSTAMP").count(), events);
    let unfolded = text.replace("\r\n ", "");
    assert!(unfolded.contains("SUMMARY:Coat the walls\\, cap to footing\\; a long name"), "{unfolded}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// No activity starts before what it waits for, and the critical path is never empty.
    #[test]
    fn order_is_kept(days in prop::collection::vec(0_u32..5, 1..9), links in prop::collection::vec((0_usize..9, 0_usize..9, 0_u32..4), 0..12)) {
        let mut list: Vec<Activity> = days.iter().enumerate().map(|(i, &d)| activity(&i.to_string(), d, &[])).collect();
        for (a, b, cure_days) in links {
            let (from, to) = (a.min(b), a.max(b));
            if from < to && to < list.len() {
                list[to].after.push(After { id: from.to_string(), cure_days, working_days: 0 });
            }
        }
        let s = plan(&list, &calendar(), date(2026, 3, 2)).expect("no cycle");
        for a in &s.activities {
            for link in &a.activity.after {
                let before = of(&s, &link.id);
                prop_assert!(a.first >= before.last || before.activity.days == 0);
                if before.activity.days > 0 && a.activity.days > 0 {
                    let wait = before.last.until(a.first).expect("a span").get_days();
                    prop_assert!(wait > link.cure_days as i32);
                }
            }
            prop_assert!(a.latest_first >= a.first);
        }
        prop_assert!(s.critical_path().next().is_some());
    }
}
