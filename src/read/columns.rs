//! Columns that several tables share, and how a table's columns are put together of them.

use crate::table::Column;

/// The column of a cap that holds for every claim of a lot.
pub(super) const LOT_EXCESS_CAP: &str = "lot excess cap";

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

/// What is written about a vehicle, its owner and insurer. It may stand in tables of counts, too.
pub(super) const FACTS: [Column; 30] = [
    Column::optional(
        "make",
        &[
            "maker",
            "manufacturer",
            "vehicle make",
            "car make",
            "hersteller",
            "fabrikat",
            "marke",
            "marque",
            "marca",
        ],
    ),
    Column::optional(
        "model",
        &[
            "vehicle model",
            "car model",
            "type of car",
            "modell",
            "typ",
            "modèle",
            "modele",
            "modelo",
            "modello",
        ],
    ),
    Column::optional(
        "year",
        &[
            "model year",
            "year of manufacture",
            "year of make",
            "baujahr",
            "modelljahr",
            "année",
            "annee",
            "año",
            "ano",
            "anno",
        ],
    ),
    Column::optional(
        "body type",
        &[
            "body",
            "body style",
            "bodywork",
            "kind of body",
            "karosserie",
            "aufbau",
            "carrosserie",
            "carrocería",
            "carroceria",
            "carrozzeria",
        ],
    ),
    Column::optional("vehicle class", &["class", "size class", "class of vehicle"]),
    Column::optional("steering", &["steering side", "steering wheel", "drive side"]),
    Column::optional("place of registration", &["registered in", "title state", "state of title"]),
    Column::optional("cause of loss", &["peril", "cause of damage"]),
    Column::optional(
        "market",
        &["country", "country of registration", "region", "land", "pays", "país", "pais", "paese"],
    ),
    Column::optional("colour", &["color", "paint colour", "paint color", "farbe", "couleur", "colore"]),
    Column::optional("paint kind", &["kind of paint", "paint type", "type of paint"]),
    Column::optional(
        "odometer",
        &[
            "odometer reading",
            "mileage",
            "kilometres",
            "kilometers",
            "miles",
            "km",
            "kilometerstand",
            "km stand",
            "kilométrage",
            "kilometrage",
            "kilometraje",
            "chilometraggio",
        ],
    ),
    Column::optional("roof equipment", &["equipment on roof", "roof fittings"]),
    Column::optional(
        "driver assistance",
        &["driver assistance systems", "assistance", "adas", "cameras and radar"],
    ),
    Column::optional("drive", &["fuel", "drive type", "propulsion", "engine"]),
    Column::optional(
        "policy",
        &[
            "policy number",
            "policy no",
            "policy nr",
            "police",
            "policennummer",
            "versicherungsschein",
            "numéro de police",
            "numero de police",
            "póliza",
            "poliza",
            "polizza",
        ],
    ),
    Column::optional(
        "insurer",
        &[
            "insurance",
            "insurance company",
            "insurance co",
            "company",
            "versicherung",
            "versicherer",
            "assureur",
            "assurance",
            "aseguradora",
            "assicurazione",
            "compagnia",
        ],
    ),
    Column::optional(
        "owner",
        &[
            "customer",
            "insured",
            "owner name",
            "name of owner",
            "policyholder",
            "client",
            "halter",
            "eigentümer",
            "eigentumer",
            "eigentuemer",
            "kunde",
            "versicherungsnehmer",
            "propriétaire",
            "proprietaire",
            "assuré",
            "assure",
            "propietario",
            "cliente",
            "asegurado",
            "proprietario",
            "assicurato",
        ],
    ),
    Column::optional("lot", &["fleet", "dealer lot", "lot name"]),
    Column::optional("event", &["storm", "event name", "name of event"]),
    Column::optional(
        "date of loss",
        &[
            "loss date",
            "date of event",
            "date of storm",
            "event date",
            "storm date",
            "schadentag",
            "schadendatum",
            "date du sinistre",
            "fecha del siniestro",
            "data sinistro",
            "data del sinistro",
        ],
    ),
    Column::optional("place of loss", &["loss place", "loss location", "place of event", "place of storm"]),
    Column::optional(LOT_EXCESS_CAP, &["excess cap of lot", "cap of lot", "lot cap", "lot deductible cap"]),
    Column::optional(
        "excess",
        &[
            "deductible",
            "excess amount",
            "own share",
            "selbstbehalt",
            "selbstbeteiligung",
            "franchise",
            "franquicia",
            "franchigia",
            "scoperto",
        ],
    ),
    Column::optional(
        "market value",
        &[
            "value",
            "vehicle value",
            "pre accident value",
            "pav",
            "actual cash value",
            "acv",
            "value before loss",
            "wiederbeschaffungswert",
            "zeitwert",
            "marktwert",
            "valeur",
            "valeur vénale",
            "valeur venale",
            "vrade",
            "valor venal",
            "valor de mercado",
            "valore commerciale",
            "valore di mercato",
        ],
    ),
    Column::optional(
        "salvage",
        &[
            "salvage value",
            "wreck value",
            "value of wreck",
            "restwert",
            "valeur résiduelle",
            "valeur residuelle",
            "valor residual",
            "valore residuo",
            "relitto",
        ],
    ),
    Column::optional("policy limit", &["limit", "limit of policy", "sum insured"]),
    Column::optional("tax position", &["tax", "vat", "vat position", "vat registered", "input tax"]),
    Column::optional("tax share", &["share of tax", "tax share percent", "vat share"]),
    Column::optional("settlement", &["settle by", "kind of settlement", "settled by"]),
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
pub(super) const SIDE: Column =
    Column::optional("side", &["left right", "l r", "hand", "seite", "côté", "cote", "lado", "lato"]);

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
