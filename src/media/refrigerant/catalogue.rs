//! Which refrigerants there are.

use std::sync::OnceLock;

use super::Refrigerant;
use super::compression::isentropes_of;
use super::table::Table;

struct Entry {
    name: &'static str,
    bytes: &'static [u8],
    refrigerant: OnceLock<Refrigerant>,
}

impl Entry {
    const fn new(name: &'static str, bytes: &'static [u8]) -> Entry {
        Entry { name, bytes, refrigerant: OnceLock::new() }
    }

    #[inline]
    fn refrigerant(&self) -> &Refrigerant {
        self.refrigerant.get_or_init(|| self.decode())
    }

    #[cold]
    fn decode(&self) -> Refrigerant {
        let mut table = Table::decode(self.bytes);
        table.isentropes = isentropes_of(&table);
        assert_eq!(table.name, self.name, "table of another refrigerant");
        Refrigerant { table }
    }
}

static R410A: Entry = Entry::new("R-410A", include_bytes!("../data/r410a.tab"));
static R32: Entry = Entry::new("R-32", include_bytes!("../data/r32.tab"));
static R454B: Entry = Entry::new("R-454B", include_bytes!("../data/r454b.tab"));
static R22: Entry = Entry::new("R-22", include_bytes!("../data/r22.tab"));

static ENTRIES: [&Entry; 4] = [&R410A, &R32, &R454B, &R22];
static NAMES: [&str; 4] = [R410A.name, R32.name, R454B.name, R22.name];

impl Refrigerant {
    /// R-410A. Source of the table: the pseudo-pure equation of state of Lemmon (2003),
    /// doi 10.1023/A:1025048800563, as evaluated by `CoolProp` 8.
    #[must_use]
    #[inline]
    pub fn r410a() -> &'static Refrigerant {
        R410A.refrigerant()
    }

    /// R-32, a pure fluid. Source of the table: the equation of state of Tillner-Roth and Yokozeki (1997),
    /// doi 10.1063/1.556002, as evaluated by `CoolProp` 8.
    #[must_use]
    #[inline]
    pub fn r32() -> &'static Refrigerant {
        R32.refrigerant()
    }

    /// R-454B: R-32 and R-1234yf, 68.9 and 31.1 % by mass; bubble and dew lie more than 1 K apart. Source of the table:
    /// the mixture model of Bell (2023), doi 10.1063/5.0135368, as evaluated by `CoolProp` 8.
    #[must_use]
    #[inline]
    pub fn r454b() -> &'static Refrigerant {
        R454B.refrigerant()
    }

    /// R-22, a pure fluid. Source of the table: the equation of state of Kamei, Beyerlein and Jacobsen (1995), as
    /// evaluated by `CoolProp` 8.
    #[must_use]
    #[inline]
    pub fn r22() -> &'static Refrigerant {
        R22.refrigerant()
    }

    /// The refrigerant with exactly this trade name, one of [`Refrigerant::names`].
    #[must_use]
    pub fn by_name(name: &str) -> Option<&'static Refrigerant> {
        ENTRIES.into_iter().find(|entry| entry.name == name).map(Entry::refrigerant)
    }

    /// Trade names of all refrigerants here.
    #[must_use]
    pub fn names() -> &'static [&'static str] {
        &NAMES
    }
}
