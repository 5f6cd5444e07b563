//! Reading a scenario: TOML with overrides set into it, and messages that name the place.

use lowside_plant::vehicle::Vehicle;
use serde::de::DeserializeOwned;

use super::{Altered, LARGEST, MOST_ACTS, MOST_MARKS, Scenario, ScenarioError, altered, below};
use crate::{library, script::Act};

/// Deepest path of an override; the deepest field there is has three keys.
const DEEPEST: usize = 8;

impl Scenario {
    /// Reads a scenario, after setting each override `path=value` (`day.ambient=38degC`).
    ///
    /// `vehicle` is the name of a shipped vehicle or a whole table.
    ///
    /// # Errors
    /// [`ScenarioError`], naming the field and what is allowed.
    pub fn parse(text: &str, overrides: &[String]) -> Result<Self, ScenarioError> {
        Self::parse_with(text, overrides, |name| {
            library::vehicle(name).map(str::to_owned)
        })
    }

    /// As [`Scenario::parse`], with the host finding the text of a vehicle by its name. A host with files can so take a
    /// vehicle's file; here is no file access.
    ///
    /// # Errors
    /// [`ScenarioError`], naming the field and what is allowed.
    pub fn parse_with(
        text: &str,
        overrides: &[String],
        vehicle: impl FnOnce(&str) -> Option<String>,
    ) -> Result<Self, ScenarioError> {
        Self::overridden(table(text, "")?, overrides, vehicle)
    }

    /// Returns the same scenario with overrides `path=value` set, read as [`Scenario::parse_with`] reads them.
    ///
    /// # Errors
    /// [`ScenarioError`], naming the field and what is allowed.
    pub fn with(
        &self,
        overrides: &[String],
        vehicle: impl FnOnce(&str) -> Option<String>,
    ) -> Result<Self, ScenarioError> {
        let table =
            toml::Table::try_from(self).map_err(|e| ScenarioError::form("", e.to_string()))?;
        Self::overridden(table, overrides, vehicle)
    }

    fn overridden(
        mut table: toml::Table,
        overrides: &[String],
        vehicle: impl FnOnce(&str) -> Option<String>,
    ) -> Result<Self, ScenarioError> {
        let sets: Vec<Override<'_>> = overrides
            .iter()
            .map(|text| Override::parse(text))
            .collect::<Result<_, _>>()?;
        // which vehicle it is comes first: the others may go into it
        let (which, others): (Vec<_>, Vec<_>) = sets.iter().partition(|o| o.keys == ["vehicle"]);
        for set in which {
            set.apply(&mut table)?;
            // Another vehicle has a data sheet of its own.
            table.remove(altered::KEY);
        }
        put_vehicle(&mut table, vehicle)?;
        let before = match take_altered(&mut table)? {
            None if others.iter().any(|set| set.keys[0] == "vehicle") => {
                table.get("vehicle").cloned().and_then(whole)
            }
            before => before,
        };
        for set in others {
            set.apply(&mut table)?;
        }
        Self::finish(table, before)
    }

    /// Reads a scenario that stands as a table in another file; its vehicle is a shipped one's name or a whole table.
    ///
    /// # Errors
    /// [`ScenarioError`], naming the field and what is allowed.
    pub fn from_table(mut table: toml::Table) -> Result<Self, ScenarioError> {
        put_vehicle(&mut table, |name| library::vehicle(name).map(str::to_owned))?;
        let before = take_altered(&mut table)?;
        Self::finish(table, before)
    }

    /// Reads a table whose vehicle had the data sheet `before`, if that is known.
    fn finish(mut table: toml::Table, before: Option<Vehicle>) -> Result<Self, ScenarioError> {
        let act = acts(&mut table)?;
        let mut scenario: Self = table.try_into().map_err(|e| misread(&e, ""))?;
        scenario.act = act;
        scenario.altered = before.and_then(|before| Altered::between(before, &scenario.vehicle));
        scenario.check()?;
        Ok(scenario)
    }
}

/// Takes the list of what was altered out of a scenario's table; returns the vehicle without that.
fn take_altered(table: &mut toml::Table) -> Result<Option<Vehicle>, ScenarioError> {
    if !table.contains_key(altered::KEY) {
        return Ok(None);
    }
    let wrong = |what: String| ScenarioError::form(altered::KEY, what);
    let mut scenario = serde_json::Map::new();
    for key in [altered::KEY, "vehicle"] {
        let value = serde_json::to_value(table.get(key)).map_err(|e| wrong(e.to_string()))?;
        scenario.insert(key.to_owned(), value);
    }
    table.remove(altered::KEY);
    altered::take(&mut scenario).map_err(wrong)
}

/// A vehicle's table read by itself, if it is whole. One that overrides make whole is its own reference.
fn whole(sheet: toml::Value) -> Option<Vehicle> {
    let vehicle: Vehicle = sheet.try_into().ok()?;
    vehicle.check().is_ok().then_some(vehicle)
}

/// Puts the vehicle's table where its name stands.
fn put_vehicle(
    table: &mut toml::Table,
    vehicle: impl FnOnce(&str) -> Option<String>,
) -> Result<(), ScenarioError> {
    if let Some(toml::Value::String(name)) = table.get("vehicle") {
        let found = vehicle(name).ok_or_else(|| ScenarioError::Vehicle {
            name: name.chars().take(60).collect(),
            known: library::vehicle_names(),
        })?;
        table.insert("vehicle".into(), self::table(&found, "vehicle")?.into());
    }
    Ok(())
}

/// Reads a text from outside as a table that stands at `place` of a scenario, in bounded memory.
///
/// # Errors
/// [`ScenarioError`] when it is too large or no TOML.
pub fn table(text: &str, place: &str) -> Result<toml::Table, ScenarioError> {
    if text.len() > LARGEST {
        return Err(ScenarioError::TooLarge);
    }
    let marks = text.bytes().filter(|b| b"{[.".contains(b)).count();
    if marks > MOST_MARKS {
        return Err(ScenarioError::TooMany { marks });
    }
    toml::from_str(text).map_err(|e| misread(&e, place))
}

/// Reads a script by itself: a TOML file of nothing but `[[act]]`.
///
/// # Errors
/// [`ScenarioError`], naming the act and what is allowed.
pub fn script(text: &str) -> Result<Vec<Act>, ScenarioError> {
    let mut table = table(text, "")?;
    let list = acts(&mut table)?;
    if let Some(key) = table.keys().next() {
        return Err(ScenarioError::form(
            key,
            "a script holds [[act]] and nothing else",
        ));
    }
    for (i, act) in list.iter().enumerate() {
        act.check()
            .map_err(|e| e.inside(&format!("act {}", i + 1)))?;
    }
    Ok(list)
}

/// An override, taken apart.
struct Override<'a> {
    text: &'a str,
    keys: Vec<&'a str>,
    value: toml::Value,
}

impl<'a> Override<'a> {
    /// Takes `path=value` apart; the value is TOML (`true`, `4`, a list) or else text.
    fn parse(text: &'a str) -> Result<Self, ScenarioError> {
        let (path, value) = text
            .split_once('=')
            .ok_or_else(|| wrong(text, "needs the form PATH=VALUE"))?;
        let keys: Vec<&str> = path.trim().split('.').map(str::trim).collect();
        if keys.iter().any(|k| k.is_empty()) {
            return Err(wrong(text, "names no field before the ="));
        }
        if keys.len() > DEEPEST {
            return Err(wrong(text, "has more dots than any field"));
        }
        let value = value.trim();
        let value = match value.parse::<toml::Value>() {
            Ok(v @ (toml::Value::Boolean(_) | toml::Value::Integer(_) | toml::Value::Array(_))) => {
                v
            }
            _ => toml::Value::String(value.trim_matches('"').into()),
        };
        Ok(Self { text, keys, value })
    }

    /// Puts the value into a table.
    fn apply(&self, table: &mut toml::Table) -> Result<(), ScenarioError> {
        let Some((last, way)) = self.keys.split_last() else {
            return Ok(());
        };
        let mut place = table;
        for key in way {
            place = place
                .entry(*key)
                .or_insert_with(|| toml::Value::Table(toml::Table::new()))
                .as_table_mut()
                .ok_or_else(|| wrong(self.text, "goes through a field that holds no others"))?;
        }
        place.insert((*last).into(), self.value.clone());
        Ok(())
    }
}

fn wrong(text: &str, why: &str) -> ScenarioError {
    ScenarioError::Override {
        text: text.chars().take(80).collect(),
        why: why.into(),
    }
}

/// Takes the acts out of a scenario's table.
fn acts(table: &mut toml::Table) -> Result<Vec<Act>, ScenarioError> {
    if let Some(toml::Value::Array(list)) = table.get("act")
        && list.len() > MOST_ACTS
    {
        let what = format!(
            "{} acts are more than {MOST_ACTS}, the most a script may have",
            list.len()
        );
        return Err(ScenarioError::form("act", what));
    }
    list(table, "act", |n| format!("act {n}"))
}

/// Takes a list of tables out of a table, one by one so that a message can say which: `place` names the one of a number, from 1.
///
/// # Errors
/// [`ScenarioError::Form`], naming the place.
pub fn list<T: DeserializeOwned>(
    table: &mut toml::Table,
    key: &str,
    place: impl Fn(usize) -> String,
) -> Result<Vec<T>, ScenarioError> {
    match table.remove(key) {
        None => Ok(Vec::new()),
        Some(toml::Value::Array(list)) => (1..)
            .zip(list)
            .map(|(n, value)| value.try_into().map_err(|e| misread(&e, &place(n))))
            .collect(),
        Some(other) => {
            let kind = other.type_str();
            let what =
                format!("is a {kind}, and {key}s are written [[{key}]], one such head before each");
            Err(ScenarioError::form(key, what))
        }
    }
}

/// A reader's message, in words that say what is expected, with the field: below `place`.
pub fn misread(e: &toml::de::Error, place: &str) -> ScenarioError {
    let words: Vec<&str> = e.message().split_whitespace().collect();
    let what = words
        .join(" ")
        .replace("expected u8", "expected a whole number from 0 to 255")
        .replace("expected u32", "expected a whole number");
    let text = e.to_string();
    let at = text.lines().next().and_then(|l| {
        let (_, at) = l.split_once(" at line ")?;
        let (line, column) = at.split_once(", column ")?;
        Some((line.parse().ok()?, column.trim().parse().ok()?))
    });
    let field = text.lines().find_map(|l| {
        let field = l.trim().strip_prefix("in `")?.strip_suffix('`')?;
        Some(field.to_owned())
    });
    let field = below(place, &field.unwrap_or_default());
    ScenarioError::Form { field, at, what }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "format = 1\nname = \"a\"\nvehicle = \"utility-van\"\n";

    fn trouble(tail: &str, overrides: &[&str]) -> String {
        let overrides: Vec<String> = overrides.iter().map(|o| (*o).to_owned()).collect();
        Scenario::parse(&format!("{HEAD}{tail}"), &overrides)
            .expect_err(tail)
            .to_string()
    }

    #[test]
    fn shipped_scenarios_are_the_same_baked_as_written() {
        let mut seen = 0;
        for name in library::scenario_names() {
            let mut written = Scenario::parse(library::scenario(name).unwrap(), &[]).unwrap();
            written.act.clear();
            assert_eq!(library::shipped(name), Some(written), "{name}");
            seen += 1;
        }
        assert!(seen >= 2, "{seen} scenarios are shipped");
    }

    /// What is not set stays as it was, to the bit, acts and all.
    #[test]
    fn a_scenario_with_a_setting_differs_in_that_alone() {
        let with = |s: &Scenario, set: &[&str]| {
            let set: Vec<String> = set.iter().map(|o| (*o).to_owned()).collect();
            s.with(&set, |name| library::vehicle(name).map(str::to_owned))
        };
        for name in library::scenario_names() {
            let odd = [
                "day.ambient=304.7123456789012K",
                "start.charge=777.123456789g",
            ];
            let odd = odd.map(str::to_owned);
            let written = Scenario::parse(library::scenario(name).unwrap(), &odd).unwrap();
            assert_eq!(with(&written, &[]), Ok(written.clone()), "{name}");
            let mut condition = serde_json::to_value(&written.condition).unwrap();
            condition["condenser_air"] = "40 %".into();
            let set = Scenario {
                condition: serde_json::from_value(condition).unwrap(),
                ..written.clone()
            };
            let read = with(&written, &["condition.condenser_air=40%"]);
            assert_eq!(read, Ok(set), "{name}");
        }
        let van = Scenario::parse(HEAD, &[]).unwrap();
        let said = |set: &str| with(&van, &[set]).expect_err(set).to_string();
        for (set, told) in [
            (
                "condition.condenser_air=140%",
                "condition.condenser_air: 140 % is outside 0 % to 100 %",
            ),
            ("condition.no=1", "condition: unknown field `no`"),
            ("vehicle=bus", "vehicle \"bus\" is not known"),
        ] {
            assert!(said(set).starts_with(told), "{}", said(set));
        }
    }

    #[test]
    fn messages_name_the_place_and_speak_in_usual_units() {
        for (tail, said) in [
            (
                "[day]\nambient = \"60 degC\"",
                "day.ambient: 60 degC is outside -10 degC to 50 degC",
            ),
            (
                "[engine]\nspeed = \"9000 rpm\"",
                "engine.speed: 9000 rpm is outside 499.9 rpm to 5000.1 rpm",
            ),
            (
                "[start]\ncharge = \"4 kg\"",
                "start.charge: 4000 g is outside 0 g to 2898.5 g",
            ),
            (
                "[day]\nambiant = \"6\"",
                "day: unknown field `ambiant`, expected one of `ambient`",
            ),
            ("[day]\nambient = \"6\"", "day.ambient: \"6\" has no unit"),
            (
                "[[act]]\n[[act]]\nwhen = \"vnt < 3 degC\"",
                "act 2.when: \"vnt\" is not a reading",
            ),
            (
                "[[act]]\nact = { do = \"jump\" }",
                "act 1.act: unknown variant `jump`, expected one of `engine`",
            ),
            (
                "[[act]]\nafter = \"-5 s\"",
                "act 1.after: -5 s is outside 0 s",
            ),
            (
                "[act]\nafter = \"5 s\"",
                "act: is a table, and acts are written [[act]]",
            ),
            (
                "[controls]\nblower = 300",
                "controls.blower: invalid value: integer `300`, expected a whole number from 0 to 255",
            ),
            ("[day", "line 4, column 5: unclosed table"),
        ] {
            let e = trouble(tail, &[]);
            assert!(e.starts_with(said), "{tail}: {e}");
        }
    }

    /// Scenarios saved before the data sheet had the bores of its lines open with those that the engine had.
    #[test]
    fn a_data_sheet_without_bores_has_those_it_always_had() {
        let lines = |text: &str| -> String {
            let without = text
                .lines()
                .filter(|l| !l.starts_with("bore = \"1") && !l.starts_with("bore = \"7"));
            without.collect::<Vec<_>>().join("\n")
        };
        let van = library::vehicle("utility-van").unwrap();
        let old = lines(
            &van.replace("1.83 mm", "+1.83 mm")
                .replace("1.3 mm", "+1.3 mm"),
        );
        assert_eq!(
            van.matches("\nbore =").count() - old.matches("\nbore =").count(),
            3
        );
        let now = Scenario::parse(HEAD, &[]).unwrap();
        let then = Scenario::parse_with(HEAD, &[], |_| Some(old)).unwrap();
        assert_eq!(then, now);
        let bores = |v: &Vehicle| {
            [&v.discharge_line, &v.liquid_line, &v.suction_line].map(|line| line.bore)
        };
        let asked = [10.0, 7.0, 14.0].map(lowside_units::Length::from_mm);
        assert_eq!(bores(&then.vehicle), asked);
    }

    /// What is altered is known by path, with what it was: as text a scenario keeps it, and as a take does.
    #[test]
    fn an_altered_data_sheet_is_known_for_it() {
        let sets = |sets: &[&str]| {
            let sets: Vec<String> = sets.iter().map(|s| (*s).to_owned()).collect();
            Scenario::parse(HEAD, &sets).expect("reads")
        };
        let told = |s: &Scenario| -> Vec<(String, Option<String>)> {
            let list = s.altered.iter().flat_map(Altered::list);
            list.map(|a| (a.field.clone(), a.was.as_ref().map(ToString::to_string)))
                .collect()
        };
        let plain = sets(&[]);
        assert_eq!(plain.altered, None);
        // The same in another unit, and another name, are no alteration.
        let same = sets(&["vehicle.orifice.bore=0.00183m", "vehicle.name=mine"]);
        assert_eq!(same.altered, None);
        let altered = sets(&[
            "vehicle.suction_line.pressure_loss=400kPa",
            "vehicle.discharge_line.muffler=100cm3",
            "vehicle.compressor_port=false",
        ]);
        let loss = serde_json::to_value(plain.vehicle.suction_line.pressure_loss).unwrap();
        assert_eq!(
            told(&altered),
            [
                (
                    "vehicle.compressor_port".to_owned(),
                    Some("true".to_owned())
                ),
                ("vehicle.discharge_line.muffler".to_owned(), None),
                (
                    "vehicle.suction_line.pressure_loss".to_owned(),
                    Some(loss.to_string())
                ),
            ]
        );
        assert_eq!(altered.sound_vehicle(), &plain.vehicle);
        // Written and read again, as TOML and as JSON, it is the same; what is set back is altered no more, another vehicle neither.
        let again = altered.with(&[], |_| None).expect("reads");
        assert_eq!(again, altered);
        let json = serde_json::to_string(&altered).expect("written");
        let mut reader = serde_json::Deserializer::from_str(&json);
        assert_eq!(Scenario::with_acts(&mut reader).expect("reads"), altered);
        let back = ["vehicle.suction_line.pressure_loss=8kPa".to_owned()];
        let less = altered.with(&back, |_| None).expect("reads");
        assert_eq!(told(&less), told(&altered)[..2]);
        let other = altered
            .with(&["vehicle=compact-car".into()], |name| {
                library::vehicle(name).map(str::to_owned)
            })
            .expect("reads");
        assert_eq!(other.altered, None);
        for (list, said) in [
            (
                r#"[{field="orifice.bore"}]"#,
                "altered: `orifice.bore` is no field of a vehicle",
            ),
            (
                r#"[{field="vehicle.orifice.bore"}]"#,
                "altered: missing field `bore`",
            ),
            (
                r#"[{field="vehicle.orifice.bore",was="9 mm"}]"#,
                "altered.orifice.bore: 0.009 m is outside",
            ),
            (
                r#"[{field="vehicle.orifice.hue",was="9 mm"}]"#,
                "altered: unknown field `hue`",
            ),
        ] {
            let e = trouble(&format!("altered = {list}"), &[]);
            assert!(e.starts_with(said), "{list}: {e}");
        }
    }

    #[test]
    fn overrides_reach_into_the_vehicle_and_name_what_is_wrong() {
        let good = Scenario::parse(
            HEAD,
            &[
                "vehicle.orifice.bore=1.5mm".into(),
                "vehicle=utility-van".into(),
            ],
        );
        let bore = good.map(|s| s.vehicle.orifice.bore.mm()).expect("reads");
        assert!((bore - 1.5).abs() < 1e-12);
        for (text, said) in [
            (
                "vehicle=bus",
                "vehicle \"bus\" is not known; known are: compact-car, crossover, utility-van, utility-van-r12",
            ),
            (
                "vehicle.orifice.bore=9mm",
                "vehicle.orifice.bore: 0.009 m is outside",
            ),
            ("day.ambient", "override \"day.ambient\": needs the form"),
            ("=3", "override \"=3\": names no field"),
            ("name.x=3", "override \"name.x=3\": goes through a field"),
            (
                "a.b.c.d.e.f.g.h.i=3",
                "override \"a.b.c.d.e.f.g.h.i=3\": has more dots",
            ),
        ] {
            let e = trouble("", &[text]);
            assert!(e.starts_with(said), "{text}: {e}");
        }
        let deep = format!("{}=1", "a.".repeat(200_000));
        assert!(Scenario::parse(HEAD, &[deep]).is_err());
    }
}
