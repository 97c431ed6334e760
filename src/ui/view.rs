//! What panels look at: a view of the visit that shows only what a person at the site could see, and what the
//! instruments that hang there display.

use call::Call;
use media::refrigerant::Refrigerant;
use plant::Terminal;
use plant::{FanSetting, Mode, Switch};
use visit::{BulbState, Entry, Gauges, Measured, Move, Observation, Offer, Panel, Place, Trust, Visit};

use words::{Words, first_upper};

use crate::wording;

/// A visit, as the screen sees it.
pub struct View<'a> {
    visit: &'a Visit,
    /// The reader.
    pub words: Words,
    /// The call.
    pub call: &'a Call,
    /// Seed.
    pub seed: u64,
    /// Hour of the day, 0 to 24.
    pub hour_of_day: f64,
    /// Time since arrival, s.
    pub since_arrival_s: f64,
    /// Plant time of arrival, s.
    pub arrival_s: f64,
    /// Money spent on parts.
    pub parts_cost: f64,
    /// The notebook.
    pub notebook: &'a [Entry],
    /// What instruments display now.
    pub live: Vec<LiveValue>,
    /// Refrigerant of the system, for the temperatures printed on gauge faces.
    pub refrigerant: &'static Refrigerant,
    /// Atmosphere that gauges read against, Pa.
    pub atmosphere_pa: f64,
    /// The running move, if any.
    pub busy: Option<Busy>,
    /// What the site looks like.
    pub site: SiteLook,
    /// The chosen place.
    pub place: Place,
    /// Moves possible at the chosen place.
    pub offers: Vec<Offer>,
    /// Whether the ticket is closed.
    pub closed: bool,
}

/// A value that an attached instrument displays.
#[derive(Clone, Debug, PartialEq)]
pub struct LiveValue {
    /// What and where.
    pub quantity: Measured,
    /// Displayed value, SI.
    pub value: f64,
    /// Whether it can be relied on, as far as it can be told at this moment.
    pub trust: Trust,
}

/// A move that is being made.
#[derive(Clone, Debug, PartialEq)]
pub struct Busy {
    /// The move.
    pub action: Move,
    /// What it is, as an instruction.
    pub label: String,
    /// Plant time done, s.
    pub done_s: f64,
    /// Plant time in all, s.
    pub total_s: f64,
}

/// What a person at the site sees, hears and feels.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteLook {
    /// Hour of the day, for the light.
    pub hour_of_day: f64,
    /// Thermostat mode.
    pub mode: Mode,
    /// Thermostat fan setting.
    pub fan: FanSetting,
    /// Thermostat set point, K.
    pub set_point_k: f64,
    /// Room temperature on the thermostat's display, K.
    pub room_k: f64,
    /// Outdoor disconnect.
    pub outdoor_disconnect: Switch,
    /// Indoor service switch.
    pub indoor_switch: Switch,
    /// Which panels are open.
    pub open_panels: Vec<Panel>,
    /// Whether gauges hang on the service ports.
    pub gauges: Gauges,
    /// Airflow felt at grille and register, share of a strong flow, 0 to 1.
    pub air_share: f64,
    /// Air at the register, as a hand feels it, K.
    pub register_air_k: f64,
    /// Speed of the blower wheel, 0 to 1; `None` behind the closed panel.
    pub blower_speed: Option<f64>,
    /// The coil; `None` behind the closed panel.
    pub coil: Option<CoilLook>,
    /// Suction line where it is exposed, outdoors, as a hand feels it, K.
    pub suction_line_k: f64,
    /// Liquid line before the drier, K.
    pub liquid_before_drier_k: f64,
    /// Liquid line after the drier, K.
    pub liquid_after_drier_k: f64,
    /// Compressor as it is heard, share of full speed.
    pub compressor_speed: f64,
    /// Outdoor fan as it is seen, share of full speed.
    pub outdoor_fan_speed: f64,
}

/// The open coil cabinet.
#[derive(Clone, Debug, PartialEq)]
pub struct CoilLook {
    /// Share of the coil that carries ice, 0 to 1.
    pub iced_share: f64,
    /// Thickness of the ice against a coil that is a block, 0 to 1.
    pub thickness_share: f64,
    /// What lies on its face.
    pub face: CoilFace,
    /// How the sensing bulb sits.
    pub bulb: BulbLook,
}

/// What lies on the face of the coil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoilFace {
    /// Bare fins.
    Bare,
    /// A mat of filter medium that was sucked in.
    FilterMat,
}

/// How the sensing bulb sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BulbLook {
    /// Strapped to the suction line under insulation.
    Insulated,
    /// Strapped, bare in the cabinet air.
    Bare,
    /// In a warm hand.
    InHand,
    /// In a cup of ice and water.
    InIceWater,
    /// Hanging in room air.
    Hanging,
}

/// Ice mass at which the coil of a three-ton unit is a block, kg (engineering value of our own; drawing only).
const BLOCK_OF_ICE_KG: f64 = 3.0;
/// Airflow that feels strong at the register of a three-ton unit, m³/s (about 400 cfm a ton).
const STRONG_AIRFLOW_M3_S: f64 = 0.566;

impl<'a> View<'a> {
    /// Looks at a visit from a place.
    pub fn of(visit: &'a Visit, place: Place, words: Words) -> View<'a> {
        let arrival_s = visit.arrival_s();
        View {
            visit,
            words,
            call: visit.call(),
            seed: visit.seed(),
            hour_of_day: visit.hour_of_day(),
            since_arrival_s: (visit.time_s() - arrival_s).max(0.0),
            arrival_s,
            parts_cost: visit.cost(),
            notebook: visit.notebook(),
            live: visit
                .live()
                .into_iter()
                .map(|one| LiveValue { quantity: one.quantity, value: one.value, trust: one.trust })
                .collect(),
            refrigerant: visit.call().system.refrigerant.tables(),
            atmosphere_pa: media::units::STANDARD_ATMOSPHERE_PA,
            busy: visit.busy().map(|progress| Busy {
                label: words.say(&progress.action),
                action: progress.action,
                done_s: progress.done_s,
                total_s: progress.total_s,
            }),
            site: SiteLook::of(visit),
            place,
            offers: visit.offers(place),
            closed: visit.is_closed(),
        }
    }

    /// What an attached instrument displays of a quantity, if one is attached.
    pub fn live_value(&self, quantity: Measured) -> Option<f64> {
        self.live.iter().find(|one| one.quantity == quantity).map(|one| one.value)
    }

    /// Terminals of the system.
    pub fn terminals(&self) -> impl Iterator<Item = Terminal> + '_ {
        self.visit.plant().terminals()
    }

    /// A move as the site takes it now: minutes from where the learner stands, reason against it, caution.
    pub fn offer(&self, action: &Move) -> Offer {
        self.visit.offer(action.clone())
    }

    /// Entry by its number.
    pub fn entry(&self, number: u32) -> Option<&Entry> {
        self.notebook.iter().find(|entry| entry.number == number)
    }
}

impl SiteLook {
    fn of(visit: &Visit) -> SiteLook {
        let (truth, inputs, site) = (visit.truth(), visit.inputs(), visit.site());
        let open_panels: Vec<Panel> = site.open_panels.iter().copied().collect();
        let blower_speed = open_panels.contains(&Panel::BlowerCompartment).then_some(truth.blower_speed);
        let coil = open_panels.contains(&Panel::CoilCabinet).then(|| CoilLook {
            iced_share: truth.iced_share,
            thickness_share: (truth.frost_mass_kg / BLOCK_OF_ICE_KG).clamp(0.0, 1.0),
            face: coil_face(visit),
            bulb: bulb_look(visit),
        });
        SiteLook {
            hour_of_day: visit.hour_of_day(),
            mode: inputs.thermostat.mode,
            fan: inputs.thermostat.fan,
            set_point_k: inputs.thermostat.set_point_k,
            room_k: truth.room_k,
            outdoor_disconnect: inputs.outdoor_disconnect,
            indoor_switch: inputs.indoor_service_switch,
            open_panels,
            gauges: site.gauges,
            air_share: (truth.airflow_m3_s / STRONG_AIRFLOW_M3_S).clamp(0.0, 1.0),
            register_air_k: truth.supply_dry_bulb_k,
            blower_speed,
            coil,
            suction_line_k: truth.suction_line_outdoor_k,
            liquid_before_drier_k: truth.liquid_before_drier_k,
            liquid_after_drier_k: truth.liquid_after_drier_k,
            compressor_speed: truth.compressor_speed,
            outdoor_fan_speed: truth.outdoor_fan_speed,
        }
    }

    /// Whether a panel is open.
    pub fn is_open(&self, panel: Panel) -> bool {
        self.open_panels.contains(&panel)
    }

    /// Strength of the air at the register.
    pub fn air(&self) -> Observation {
        match self.air_share {
            share if share < 0.05 => Observation::AirNone,
            share if share < 0.55 => Observation::AirWeak,
            _ => Observation::AirStrong,
        }
    }

    /// The whole drawing in words: the twin of the picture for those who do not see it.
    pub fn in_words(&self, words: Words) -> String {
        let either = |speed: f64, running: Observation, still: Observation| {
            words.say(if is_running(speed) { &running } else { &still })
        };
        let mut clauses = vec![
            either(self.compressor_speed, Observation::CompressorRunning, Observation::CompressorStill),
            either(self.outdoor_fan_speed, Observation::OutdoorFanRunning, Observation::OutdoorFanStill),
            words.fill("screen-site-air", &[("air", words.say(&self.air()))]),
        ];
        clauses.push(
            words.fill("screen-site-suction-line", &[("feel", wording::feel(self.suction_line_k, words))]),
        );
        clauses.push(
            words.fill(
                "screen-site-liquid-line",
                &[("feel", wording::feel(self.liquid_after_drier_k, words))],
            ),
        );
        if self.has_frosted_suction_line() {
            clauses.push(words.label("screen-site-frost"));
        }
        if let Some(speed) = self.blower_speed {
            clauses.push(either(speed, Observation::BlowerTurning, Observation::BlowerStill));
        }
        if let Some(coil) = &self.coil {
            if coil.face == CoilFace::FilterMat {
                clauses.push(words.say(&Observation::FilterOnCoil));
            }
            clauses.push(match coil.iced_share {
                share if share < 0.01 => words.label("screen-site-coil-clear"),
                share => words.fill("screen-site-coil-iced", &[("share", words::share(share))]),
            });
        }
        words.fill("screen-site-seen", &[("seen", first_upper(&words.list(&clauses)))])
    }

    /// Whether frost lies on the suction line where it is exposed.
    pub fn has_frosted_suction_line(&self) -> bool {
        self.suction_line_k < FREEZING_K
    }
}

/// Freezing point of water, K.
const FREEZING_K: f64 = 273.15;

/// Whether something turns, to the eye or the ear, by its share of full speed.
pub fn is_running(speed: f64) -> bool {
    speed > 0.05
}

fn coil_face(visit: &Visit) -> CoilFace {
    if visit.sees_coil_face() && visit.plant().coil_covered_share() > 0.0 {
        CoilFace::FilterMat
    } else {
        CoilFace::Bare
    }
}

fn bulb_look(visit: &Visit) -> BulbLook {
    match visit.site().bulb {
        BulbState::InHand => BulbLook::InHand,
        BulbState::InIceWater => BulbLook::InIceWater,
        BulbState::Hanging => BulbLook::Hanging,
        BulbState::AsFound | BulbState::Strapped if visit.bulb_is_bare() => BulbLook::Bare,
        BulbState::AsFound | BulbState::Strapped => BulbLook::Insulated,
    }
}
