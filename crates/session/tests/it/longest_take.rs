//! The longest bay there can be is written and read again: whoever records one asks [`is_full`] where to stop.
use lowside_session::{
    Bay, Take, TakeError, VehicleAct, library,
    take::Part,
    take::{LONGEST, MOST_ACTS, is_full},
};

fn bay() -> Bay {
    Bay::new(&library::shipped("charge-from-cans").expect("shipped"))
}

/// Plays a whole day, with the engine off.
#[test]
fn a_day_is_written_and_read() {
    let mut bay = bay();
    while !is_full(&bay) {
        bay.step().expect("the engine goes on");
    }
    assert_eq!(bay.tick(), LONGEST);
    bay.apply(VehicleAct::Windows { on: true })
        .expect("at the last moment");
    let take = Take::parse(&Take::of(&bay).to_text()).expect("a day can be read");
    assert_eq!((take.ticks, take.log.len()), (LONGEST, 1));
    bay.step().expect("the engine goes on");
    let beyond = Take::parse(&Take::of(&bay).to_text());
    assert!(
        matches!(
            beyond,
            Err(TakeError::Range {
                part: Part::Ticks,
                ..
            })
        ),
        "{beyond:?}"
    );
}

#[test]
fn the_most_acts_are_written_and_read() {
    let mut bay = bay();
    for k in 0..MOST_ACTS {
        assert!(!is_full(&bay), "after {k} acts");
        bay.apply(VehicleAct::Windows { on: k % 2 == 0 })
            .expect("windows move");
    }
    assert!(is_full(&bay));
    let take = Take::parse(&Take::of(&bay).to_text()).expect("so many acts can be read");
    assert_eq!(take.log.len(), MOST_ACTS);
    bay.apply(VehicleAct::Windows { on: true })
        .expect("windows move");
    let beyond = Take::parse(&Take::of(&bay).to_text());
    assert!(
        matches!(
            beyond,
            Err(TakeError::Range {
                part: Part::Log,
                ..
            })
        ),
        "{beyond:?}"
    );
}
