//! What each day did with each material: added to, read, computed again, put right.

use tokio_postgres::Row;

use super::failure::Failure;
use super::row::Columns;
use super::sql;
use super::unit::{Asked, Unit, Value};
use crate::days::{Days, Drift, drifts};
use crate::engine::DaySum;
use crate::rules::{At, Class, DayUse, Material, RollUp};

/// Adds to what days did, in the order given.
pub(super) fn adding<'a>(rolls: &[&'a RollUp]) -> Option<Asked<'a>> {
    if rolls.is_empty() {
        return None;
    }
    let classes: Vec<&str> = rolls.iter().map(|roll| roll.material.class.as_str()).collect();
    let codes: Vec<&str> = rolls.iter().map(|roll| roll.material.code.as_str()).collect();
    let lots: Vec<&str> = rolls.iter().map(|roll| roll.lot.as_str()).collect();
    let days: Vec<i64> = rolls.iter().map(|roll| i64::from(roll.day)).collect();
    let mut sums: [Vec<i64>; 12] = Default::default();
    for roll in rolls {
        for (column, (_, sum)) in sums.iter_mut().zip(roll.of.columns()) {
            column.push(sum);
        }
    }
    let late: Vec<Option<i64>> = rolls.iter().map(|roll| roll.of.late_at.map(|at| at.0)).collect();
    let mut values: Vec<Value<'a>> = vec![Box::new(classes), Box::new(codes), Box::new(lots), Box::new(days)];
    for column in sums {
        values.push(Box::new(column));
    }
    values.push(Box::new(late));
    Some(Asked::change(sql::days::ADD, values))
}

fn day_use(of: &mut Columns<'_>) -> Result<DayUse, Failure> {
    let mut sums = [0; 12];
    for sum in &mut sums {
        *sum = of.take()?;
    }
    Ok(DayUse::of(sums, of.take::<Option<i64>>()?.map(At)))
}

fn roll_up(of: &mut Columns<'_>) -> Result<RollUp, Failure> {
    Ok(RollUp { material: of.material()?, lot: of.take()?, day: of.number()?, of: day_use(of)? })
}

/// Whatever does not agree with the movements, as of one instant.
pub(super) async fn drifted(unit: &Unit) -> Result<Vec<Drift>, Failure> {
    let (mut kept, mut computed) = (Days::new(), Days::new());
    for row in unit.query(sql::days::BOTH, &[]).await? {
        let mut of = Columns::of(&row);
        let which: &str = of.take()?;
        let into = if which == "kept" { &mut kept } else { &mut computed };
        let RollUp { material, lot, day, of } = roll_up(&mut of)?;
        into.insert((material, lot, day), of);
    }
    Ok(drifts(&kept, &computed))
}

/// Puts right whatever does not agree; how many rows that were. Of two who do so at once one waits.
///
/// What differs is added, so it comes out right whatever is written meanwhile: whoever writes
/// movements adds to days in the same transaction, so that the difference is the same before and
/// after.
pub(super) async fn rebuild(unit: &Unit) -> Result<u64, Failure> {
    unit.query(sql::schema::LOCK_FIRST, &[]).await?;
    let found = drifted(unit).await?;
    let mending: Vec<RollUp> = found.iter().map(Drift::mending).collect();
    let mending: Vec<&RollUp> = mending.iter().collect();
    if let Some(asked) = adding(&mending) {
        unit.send(&[asked]).await?.rest().await?;
    }
    for drift in &found {
        let (class, day) = (drift.material.class.as_str(), i64::from(drift.day));
        let key: [&(dyn tokio_postgres::types::ToSql + Sync); 4] =
            [&class, &drift.material.code, &drift.lot, &day];
        let [is, should] = [drift.is, drift.should].map(|of| of.and_then(|of| of.late_at).map(|at| at.0));
        if is.is_some() && is > should {
            unit.execute(sql::days::LATE, &[key[0], key[1], key[2], key[3], &should, &is]).await?;
        }
        if drift.should.is_none() {
            unit.execute(sql::days::REMOVE, &key).await?;
        }
    }
    Ok(u64::try_from(found.len()).unwrap_or(u64::MAX))
}

/// What days did with the materials of a class, by code and day, over all lots.
pub(super) async fn of_days(unit: &Unit, class: Class, from: i32, to: i32) -> Result<Vec<DaySum>, Failure> {
    let values: [&(dyn tokio_postgres::types::ToSql + Sync); 3] =
        [&class.as_str(), &i64::from(from), &i64::from(to)];
    let sum = |row: &Row| {
        let mut of = Columns::of(row);
        Ok(DaySum { code: of.take()?, day: of.number()?, of: day_use(&mut of)? })
    };
    unit.query(sql::days::OF_DAYS, &values).await?.iter().map(sum).collect()
}

/// The same, by code, lot and day.
pub(super) async fn of_lots(unit: &Unit, class: Class, from: i32, to: i32) -> Result<Vec<RollUp>, Failure> {
    let values: [&(dyn tokio_postgres::types::ToSql + Sync); 3] =
        [&class.as_str(), &i64::from(from), &i64::from(to)];
    let found = unit.query(sql::days::OF_LOTS, &values).await?;
    found.iter().map(|row| roll_up(&mut Columns::of(row))).collect()
}

/// The first day on which anything is known of a material.
pub(super) async fn first(unit: &Unit, material: &Material) -> Result<Option<i32>, Failure> {
    let Some(row) = unit.one(sql::days::FIRST, &[&material.class.as_str(), &material.code]).await? else {
        return Ok(None);
    };
    let day: Option<i64> = row.try_get(0)?;
    Ok(day.and_then(|day| i32::try_from(day).ok()))
}
