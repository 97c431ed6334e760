//! Why points were earned or lost.

use call::{Call, Milestone, Text};
use diagnosis::Hypothesis;
use plant::{FaultKind, LeakPlace, LeftBehind};
use serde::{Deserialize, Serialize};
use visit::{Hazard, Trust};

/// Why points were earned or lost, as a fact; the crate of words says it. The name of a variant is its code: it stays what it is
/// when sentences change, so that reasons can be counted over many visits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reason {
    // Order.
    /// No rule of the sound order was put to the test.
    NoRuleTested,
    /// A point that a sound visit has to reach was not reached.
    NeverReached {
        /// Place of the rule in the call, from 0.
        rule: usize,
        /// The point.
        before: Milestone,
        /// What has to come first, any of it.
        one_of: Vec<Milestone>,
    },
    /// A rule was broken.
    OutOfOrder {
        /// Place of the rule in the call, from 0.
        rule: usize,
        /// What came too early.
        before: Milestone,
        /// What had to come first, any of it.
        one_of: Vec<Milestone>,
    },
    /// A rule was kept each time.
    InOrder {
        /// Place of the rule in the call, from 0.
        rule: usize,
        /// What came after.
        before: Milestone,
        /// What had to come first, any of it.
        one_of: Vec<Milestone>,
    },

    // Evidence.
    /// No cause was declared.
    NothingDeclared,
    /// A cause was declared first that was not there.
    WronglyDeclaredFirst {
        /// That cause.
        cause: FaultKind,
    },
    /// The declared cause is not there.
    CauseWrong {
        /// That cause.
        cause: FaultKind,
    },
    /// The declared cause is there, and so are others.
    CauseNotAll {
        /// That cause.
        cause: FaultKind,
        /// What was never declared.
        missing: Vec<FaultKind>,
    },
    /// The declared cause is there, at another place.
    CauseMisplaced {
        /// That cause.
        cause: FaultKind,
        /// Where it really is.
        places: Vec<LeakPlace>,
    },
    /// Everything that is wrong was declared.
    CauseRight {
        /// What was declared last.
        cause: FaultKind,
    },
    /// The declaration cites no entry.
    NothingCited,
    /// Some cited entries carry no evidence.
    CitedInPart {
        /// How many entries were cited.
        cited: usize,
        /// Those that exclude nothing.
        useless: Vec<Useless>,
    },
    /// Every cited entry carries evidence.
    CitedSoundly,
    /// Evidence for a wrong cause counts nothing.
    EvidenceForWrongCause,
    /// A right cause without evidence is a guess.
    Guessed,
    /// How probable readings and sights made the declared cause.
    CauseProbable {
        /// That cause.
        cause: FaultKind,
        /// Its probability, 0 to 1.
        probability: f64,
        /// Hypotheses that still stand, the likeliest first; the first few.
        standing: Vec<Standing>,
        /// Readings that could tell little.
        doubtful: Vec<Doubtful>,
    },
    /// The call has no rivals.
    NoRivals,
    /// A kind was ruled out that is there.
    RuledOutButTrue {
        /// That kind.
        rival: FaultKind,
    },
    /// A rival was not ruled out by what was read.
    RivalStands {
        /// The rival.
        rival: FaultKind,
        /// Its probability, 0 to 1.
        probability: f64,
    },
    /// A rival was ruled out.
    RivalRuledOut {
        /// The rival.
        rival: FaultKind,
        /// The entries that did most of it.
        entries: Vec<u32>,
    },

    // Refrigerant.
    /// No refrigerant was added to a circuit as it was.
    NothingAdded,
    /// Refrigerant was added before airflow, thaw and low charge were shown.
    AddedTooEarly {
        /// What had to come first and had not.
        missing: Vec<Milestone>,
    },
    /// Refrigerant was added though nothing was missing.
    AddedToFull {
        /// What the circuit held, as a share of the data plate's charge.
        charge_share: f64,
    },
    /// Refrigerant was added after airflow and thaw were shown.
    AddedAfterTests {
        /// Probability of a low charge then, 0 to 1.
        probability: f64,
    },
    /// Nothing was vented beyond what can't be helped.
    HardlyVented {
        /// What went into the air all the same, with what the hoses lost, kg.
        lost_kg: f64,
    },
    /// Refrigerant went into the air that recovery would have kept.
    Vented {
        /// How much of it, kg.
        vented_kg: f64,
    },
    /// The leak was found before refrigerant was put in.
    LeakFoundFirst,
    /// Refrigerant was put in before the leak was found.
    ChargedBeforeLeakFound,
    /// The leak was found, the charge never put right.
    LeakFoundNotCharged,
    /// The leak was never found.
    LeakNotFound,
    /// The circuit was never opened for the repair that it needs.
    CircuitNotOpened,
    /// The circuit was opened before its refrigerant was recovered.
    OpenedBeforeRecovery,
    /// The refrigerant was recovered first.
    RecoveredFirst,
    /// No refrigerant was weighed in.
    NotWeighedIn,
    /// What the circuit held at the end, weighed in.
    WeighedIn {
        /// As a share of the data plate's charge.
        charge_share: f64,
    },

    // Safety.
    /// Nothing was done at all.
    NothingDone,
    /// The compressor did not run on ice.
    NotOnIce,
    /// The compressor ran on ice no longer than it takes to look.
    OnIceBriefly {
        /// How long, s.
        on_ice_for_s: f64,
    },
    /// The compressor ran on ice for long.
    OnIceLong {
        /// How long, s.
        on_ice_for_s: f64,
    },
    /// No part was worked on.
    NothingTouched,
    /// Power was off each time.
    DeadWhenTouched,
    /// Something was done in an unsafe way; the first time.
    Unsafe(Danger),
    /// The visit ended without closing the ticket.
    LeftOpen,
    /// The site was left as it should be.
    LeftInOrder,
    /// The site was left in disorder.
    LeftUndone {
        /// What was left.
        undone: Vec<Undone>,
    },

    // Repair.
    /// What was wrong is gone.
    CauseGone,
    /// An instructor took away all that was wrong: nothing was left to repair.
    TakenAway {
        /// What.
        taken: Vec<FaultKind>,
    },
    /// Something is still wrong.
    StillThere {
        /// What.
        left: Vec<Remnant>,
    },
    /// The circuit holds the right charge.
    ChargeRight {
        /// What it holds, as a share of the data plate's charge.
        charge_share: f64,
        /// The least that is right.
        low_share: f64,
        /// The most that is right.
        high_share: f64,
    },
    /// The circuit holds the right charge, which counts once the cause is gone.
    ChargeRightOnly {
        /// What it holds, as a share of the data plate's charge.
        charge_share: f64,
        /// The least that is right.
        low_share: f64,
        /// The most that is right.
        high_share: f64,
    },
    /// The circuit holds a wrong charge.
    ChargeWrong {
        /// What it holds, as a share of the data plate's charge.
        charge_share: f64,
        /// The least that is right.
        low_share: f64,
        /// The most that is right.
        high_share: f64,
    },
    /// The coil is free of ice.
    CoilClear,
    /// The coil is free of ice, which counts once the cause is gone.
    CoilClearOnly,
    /// There is ice on the coil.
    CoilIced {
        /// How much, kg.
        ice_kg: f64,
    },
    /// The repair was never verified.
    NotVerified,
    /// The repair was verified, and that proves little.
    NotProven {
        /// Why.
        doubts: Vec<ProofDoubt>,
    },
    /// The repair was proven.
    Proven {
        /// How long the system had run, s.
        ran_for_s: f64,
    },
    /// Sound parts were replaced.
    NeedlessParts {
        /// How many.
        parts: usize,
        /// What the customer pays for parts and refrigerant in all, money.
        cost: f64,
    },
    /// Nothing needless was replaced.
    NothingNeedless,
    /// Nothing needless was replaced, and nothing that was needed.
    NothingNeededEither,
    /// The ticket was closed on a system that is put right.
    TicketClosed,
    /// The ticket was closed on a system that is not put right.
    TicketClosedTooSoon,
    /// The ticket was not closed.
    TicketNotClosed,

    // Time.
    /// Time counts only with the repair.
    TimeNotCounted,
    /// How long the visit took.
    Took {
        /// How long, s.
        took_for_s: f64,
        /// What a sound visit needs, s.
        par_for_s: f64,
        /// Parts and refrigerant, money.
        cost: f64,
    },
}

/// Entries that were cited and exclude nothing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Useless {
    /// Their numbers.
    pub entries: Vec<u32>,
    /// Why.
    pub why: NoEvidence,
}

/// Why an entry is no evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NoEvidence {
    /// It was not in the notebook when it was cited.
    NotYetThere,
    /// Nothing was read or seen.
    NothingReadOrSeen,
    /// Its reading was in doubt.
    InDoubt(Trust),
}

/// A suspect that still stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    /// The suspect.
    pub suspect: Hypothesis,
    /// Its probability, 0 to 1.
    pub probability: f64,
}

/// Entries whose readings could tell little.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Doubtful {
    /// Their numbers.
    pub entries: Vec<u32>,
    /// Why.
    pub doubt: Trust,
}

/// What was unsafe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Danger {
    /// Work on the outdoor unit or its circuit with the disconnect in.
    DisconnectIn,
    /// Work in the air handler with the blower under power.
    BlowerUnderPower,
    /// What the visit itself had seen.
    Seen(Hazard),
}

/// What was left undone on leaving.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Undone {
    /// A panel was open.
    PanelOpen,
    /// The gauges were on.
    GaugesOn,
    /// A switch was off.
    SwitchOff,
    /// The thermostat was off.
    ThermostatOff,
    /// The sensing bulb was off the line.
    BulbOff,
}

/// Something that is still wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Remnant {
    /// The fault itself.
    Fault(FaultKind),
    /// What it left behind when its part was put right.
    Behind(LeftBehind),
}

/// Why a verification proves little.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ProofDoubt {
    /// A fault was still there.
    FaultLeft,
    /// The system had not run long enough.
    RanTooShort {
        /// How long it had run, s.
        ran_for_s: f64,
        /// How long proves it, s.
        needed_for_s: f64,
    },
    /// The readings were still moving.
    NotSteady,
    /// There was ice on the coil.
    IceOnCoil,
    /// There was work on the system afterwards.
    WorkedOnSince,
}

impl Reason {
    /// Why the call has the rule that a reason is about, as the call's author says it.
    pub fn rule_of<'a>(&self, call: &'a Call) -> Option<&'a Text> {
        match self {
            Reason::NeverReached { rule, .. } | Reason::OutOfOrder { rule, .. } => {
                call.prerequisites.get(*rule).map(|rule| &rule.why)
            }
            _ => None,
        }
    }
}
