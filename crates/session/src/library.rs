//! The vehicles and scenarios that come with the program.

/// Vehicles by name.
const VEHICLES: &[(&str, &str)] = &[(
    "utility-van",
    include_str!("../../../scenarios/vehicles/utility-van.toml"),
)];

/// Scenarios by name.
const SCENARIOS: &[(&str, &str)] = &[
    (
        "charge-from-cans",
        include_str!("../../../scenarios/charge-from-cans.toml"),
    ),
    ("healthy", include_str!("../../../scenarios/healthy.toml")),
];

/// Text of a shipped vehicle.
pub fn vehicle(name: &str) -> Option<&'static str> {
    VEHICLES
        .iter()
        .find(|(n, _)| *n == name)
        .map(|(_, text)| *text)
}

/// Names of the shipped vehicles, for a message.
pub fn vehicle_names() -> String {
    VEHICLES
        .iter()
        .map(|(n, _)| *n)
        .collect::<Vec<_>>()
        .join(", ")
}

/// Text of a shipped scenario.
pub fn scenario(name: &str) -> Option<&'static str> {
    SCENARIOS
        .iter()
        .find(|(n, _)| *n == name)
        .map(|(_, text)| *text)
}

/// Names of the shipped scenarios.
pub fn scenario_names() -> impl Iterator<Item = &'static str> {
    SCENARIOS.iter().map(|(n, _)| *n)
}
