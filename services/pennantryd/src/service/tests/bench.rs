//! Bench time that is booked.

use super::*;

#[tokio::test]
async fn a_promise_moves_the_days_of_later_quotes_until_it_is_called_off() {
    let shop = open();
    shop.stocked().await;
    let ask = || shop.quote(json!({"flaggedMm": 6200, "workings": true, "near": {"who": "WHO_NO_CHILD"}}));
    let first = ask();
    let held = shop.hold(&staff(), &first).await;
    assert_eq!(ask(), first, "a hold books nothing");
    assert!(held.bench_minutes > 0.0);
    assert_eq!(Mm(held.bench_minutes), first.labour.as_ref().unwrap().minutes);
    shop.confirm(&held.reservation_id, "SO-1").await.unwrap();
    let second = ask();
    let leaves = |quote: &v1::Quote| quote.dates.as_ref().unwrap().leave_date.clone();
    assert!(leaves(&second) > leaves(&first), "{} after {}", leaves(&second), leaves(&first));
    assert_eq!(second.price, first.price);
    // the day on which it leaves still counts, the day after it does not
    let on = |day: &str| {
        let shop = shop.later(&format!("{day}T06:00:00Z"), SALTMERE_LOFT);
        shop.service.booked(&shop.service.catalogue(), shop.service.clock.now()).shop.calendar.load.len()
    };
    let day: jiff::civil::Date = leaves(&first).parse().unwrap();
    assert_eq!((on(&day.to_string()), on(&day.tomorrow().unwrap().to_string())), (2, 1));
    shop.cancel(&held.reservation_id).await.unwrap();
    assert_eq!(ask(), first, "bit for bit as before");
}
