//! Columns that several tables share, and how a table's columns are put together of them.

mod facts;

pub(super) use facts::{FACTS, LOT_EXCESS_CAP};

use crate::table::Column;

/// What joins rows to jobs, in the order in which it is preferred.
pub(super) const KEYS: [Column; 4] = [
    Column::optional(
        "claim",
        &[
            "claim number",
            "claim no",
            "claim nr",
            "claim ref",
            "claim reference",
            "claim id",
            "claims number",
            "insurers claim number",
            "claim file",
            "schaden nr",
            "schadennummer",
            "schaden nummer",
            "n de sinistre",
            "no de sinistre",
            "numéro de sinistre",
            "numero de sinistre",
            "sinistre",
            "siniestro",
            "número de siniestro",
            "numero de siniestro",
            "no siniestro",
            "sinistro",
            "numero sinistro",
            "n sinistro",
        ],
    ),
    Column::optional(
        "job",
        &[
            "job number",
            "job no",
            "job nr",
            "job ref",
            "job id",
            "our reference",
            "our ref",
            "own number",
            "own job number",
            "auftrag",
            "auftragsnummer",
            "auftrag nr",
            "dossier",
            "numéro de dossier",
            "numero de dossier",
            "expediente",
            "pratica",
            "commessa",
        ],
    ),
    Column::optional(
        "registration",
        &[
            "reg",
            "reg no",
            "registration number",
            "registration no",
            "registration plate",
            "plate",
            "license plate",
            "vehicle reg",
            "vehicle registration",
            "car reg",
            "licence plate",
            "number plate",
            "plate number",
            "rego",
            "rego no",
            "kennzeichen",
            "amtliches kennzeichen",
            "immatriculation",
            "plaque",
            "matrícula",
            "matricula",
            "placa",
            "targa",
        ],
    ),
    Column::optional(
        "vin",
        &[
            "vin number",
            "vin no",
            "vehicle identification number",
            "chassis number",
            "chassis no",
            "fin",
            "fahrgestellnummer",
            "fahrgestell nr",
            "fahrzeug identifizierungsnummer",
            "numéro de châssis",
            "numero de chassis",
            "bastidor",
            "número de bastidor",
            "numero de bastidor",
            "telaio",
            "numero di telaio",
        ],
    ),
];

/// Which inspection a row belongs to.
pub(super) const INSPECTION: [Column; 5] = [
    Column::optional(
        "assessor",
        &[
            "inspector",
            "counted by",
            "assessed by",
            "inspected by",
            "gutachter",
            "sachverständiger",
            "sachverstaendiger",
            "sachverstandiger",
            "prüfer",
            "pruefer",
            "prufer",
            "gezählt von",
            "gezaehlt von",
            "gezahlt von",
            "expert",
            "expertise par",
            "compté par",
            "compte par",
            "perito",
            "contado por",
            "contato da",
        ],
    ),
    Column::optional(
        "date of inspection",
        &[
            "inspection date",
            "date inspected",
            "inspected on",
            "date counted",
            "counted on",
            "date",
            "insp date",
            "date of insp",
            "datum",
            "datum der besichtigung",
            "besichtigt am",
            "besichtigungsdatum",
            "date d expertise",
            "date de l expertise",
            "fecha",
            "fecha de inspección",
            "fecha de inspeccion",
            "fecha de peritación",
            "fecha de peritacion",
            "data",
            "data perizia",
            "data ispezione",
        ],
    ),
    Column::optional(
        "place of inspection",
        &[
            "inspection place",
            "inspected at",
            "place",
            "location",
            "ort",
            "besichtigungsort",
            "lieu",
            "lieu d expertise",
            "lugar",
            "luogo",
        ],
    ),
    Column::optional("pass", &["pass no", "pass number", "round"]),
    Column::optional("role", &["whose count"]),
];

/// What is written about a panel beside its counts.
pub(super) const CONDITION: [Column; 6] = [
    Column::optional(
        "material",
        &["metal", "panel material", "werkstoff", "matériau", "materiau", "matière", "matiere", "materiale"],
    ),
    Column::optional("access", &["access from behind", "rear access"]),
    Column::optional("paint", &["paint condition", "state of paint", "paintwork"]),
    Column::optional("depth", &["dent depth", "depth of dents"]),
    Column::optional("position", &["dent position", "position of dents", "position on panel"]),
    Column::optional("frame", &["frame area", "counting frame", "area of frame"]),
];

/// Free text.
pub(super) const REMARK: [Column; 1] = [Column::optional(
    "remark",
    &[
        "remarks",
        "note",
        "notes",
        "comment",
        "comments",
        "bemerkung",
        "bemerkungen",
        "anmerkung",
        "hinweis",
        "remarque",
        "remarques",
        "observations",
        "observaciones",
        "observación",
        "observacion",
        "nota",
        "notas",
        "osservazioni",
    ],
)];

/// The panel and, beside its name, its side.
pub(super) const PANEL: [Column; 2] = [
    Column::needed(
        "panel",
        &[
            "panels",
            "body panel",
            "panel name",
            "name of panel",
            "bauteil",
            "karosserieteil",
            "teil",
            "élément",
            "element",
            "pièce",
            "piece",
            "panneau",
            "pieza",
            "elemento",
            "pannello",
            "parte",
        ],
    ),
    SIDE,
];

/// The side, where it does not stand in the panel's name.
pub(super) const SIDE: Column = Column::optional(
    "side",
    &[
        "left right",
        "l r",
        "left or right",
        "lh rh",
        "l h r h",
        "n s o s",
        "n s or o s",
        "near off",
        "near or off",
        "hand",
        "seite",
        "côté",
        "cote",
        "lado",
        "lato",
    ],
);

/// Where a price comes from.
pub(super) const SOURCE: [Column; 2] = [
    Column::optional("source", &["quoted by", "source of price", "price source", "supplier"]),
    Column::optional("date of price", &["price date", "quoted on", "date quoted", "date"]),
];

/// Columns of several lists as one. Where two lists have a column of one name, the first is kept by whoever looks
/// it up, so that lists are put together from the particular to the general.
pub(super) const fn joined<const N: usize>(lists: &[&[Column]]) -> [Column; N] {
    let mut all = [Column::optional("", &[]); N];
    let (mut list, mut at) = (0, 0);
    while list < lists.len() {
        let mut index = 0;
        while index < lists[list].len() {
            all[at] = lists[list][index];
            at += 1;
            index += 1;
        }
        list += 1;
    }
    assert!(at == N, "the length of the joined list is the sum of its parts");
    all
}
