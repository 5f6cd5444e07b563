//! A scenario with a fault planted in it, by the registry's row and a value.

use lowside_plant::leak::Site;
use lowside_shop::{
    fault::{Fault, Kind, Place, Severity, Table},
    joints::{Joint, Seal},
};
use lowside_units::{Length, MassFlow, Quantity, Ratio};

use super::{JointSpec, LeakSpec, RestrictionSpec, Scenario, values::seal};

impl Scenario {
    /// Returns it with a fault more, at a severity, at its most usual place.
    #[must_use]
    pub fn with_fault(&self, fault: &Fault, severity: Severity) -> Self {
        self.with_fault_of(fault, fault.at(severity, &self.vehicle))
    }

    /// Returns it with a fault more of a value, SI, at its most usual place.
    #[must_use]
    pub fn with_fault_of(&self, fault: &Fault, value: f64) -> Self {
        let mut scenario = self.clone();
        let condition = &mut scenario.condition;
        match (fault.field.table, fault.place) {
            (Table::Start, _) => scenario.start.values.set(fault.field, value),
            (Table::Restriction, Place::Passage(at)) => {
                let open = Ratio::from_si(value);
                condition.restriction.push(RestrictionSpec { at, open });
            }
            (Table::Leak, Place::Site(at)) => condition.leak.push(leak(fault, at, value)),
            (Table::Joint, Place::Joint(at)) => condition.joint.push(joint(at, value)),
            _ => condition.values.set(fault.field, value),
        }
        scenario
    }
}

fn leak(fault: &Fault, at: Site, value: f64) -> LeakSpec {
    let (mut rate, mut hole) = (None, None);
    if fault.field.kind == Kind::Length {
        hole = Some(Length::from_si(value));
    } else {
        rate = Some(MassFlow::from_si(value));
    }
    LeakSpec { at, rate, hole }
}

fn joint(at: Joint, value: f64) -> JointSpec {
    let seal: Seal = seal(value);
    JointSpec { at, seal }
}
