"""The data dictionary: one entry a field, with the trade's wordings for its heading.

Heading wordings are common practice, no published source. Each is written in the words that
`reader.headings.normal_words` makes of a heading: capitals, abbreviations spelt out, units and punctuation gone.
`fits` is the range in which a length of that field is plausible [mm]; the design basis can narrow or widen it.
"""

from dataclasses import replace

from thermowell_index.table import NOT_MEASURED, Field, Kind

IN = 25.4


def _text(name: str, group: str, headings: str, meaning: str) -> Field:
    return _field(name, group, Kind.TEXT, headings, meaning)


def _size(name: str, group: str, headings: str, meaning: str) -> Field:
    return _field(name, group, Kind.SIZE, headings, meaning)


def _number(name: str, group: str, headings: str, meaning: str) -> Field:
    return _field(name, group, Kind.NUMBER, headings, meaning)


def _length(
    name: str, group: str, low_in: float, high_in: float, headings: str, meaning: str, measured: str = ""
) -> Field:
    entry = _field(name, group, Kind.LENGTH, headings, meaning)
    return replace(entry, fits=(low_in * IN, high_in * IN), measured=measured)


def _field(name: str, group: str, kind: Kind, headings: str, meaning: str) -> Field:
    label = name.replace("_", " ")
    wordings = (label.upper(), *(" ".join(part.split()) for part in headings.split("|") if part.strip()))
    return Field(name=name, label=label, group=group, kind=kind, headings=wordings, help=meaning)


# Every way to say that a bore depth was measured at the well: what it is, and how it was found.
MEASURED_BORE_DEPTH = " | ".join(
    f"{what} {how}"
    for what in ("BORE DEPTH", "BORE LENGTH", "BORE", "DEPTH", "DEPTH OF WELL", "WELL BORE DEPTH", "WELL BORE", "DEPTH BOTTOM")
    for how in (
        "MEASURED", "AS MEASURED", "MEASURED ON SITE", "MEASURED IN FIELD", "FIELD MEASURED", "SITE MEASURED", "MEASURED AT SITE",
        "FIELD", "SITE", "FIELD VERIFIED", "SITE VERIFIED", "VERIFIED", "VERIFIED ON SITE", "VERIFIED IN FIELD", "FIELD CHECK",
        "FIELD CHECKED", "AS FOUND", "FOUND", "SURVEY", "SURVEYED", "SITE SURVEY", "FIELD SURVEY", "MEASUREMENT", "FIELD MEASUREMENT",
    )
)  # fmt: skip

FIELDS: tuple[Field, ...] = (
    # --- identity
    _text("tag", "identity",
          "KKS | KKS TAG | KKS NUMBER | KKS CODE | AKZ | KENNZEICHNUNG | TAG NUMBER | TAG NAME | TAG ID | INSTRUMENT TAG | INSTRUMENT TAG NUMBER | INSTRUMENT NUMBER | ITEM TAG | INSTRUMENT "
          "| ELEMENT TAG | SENSOR TAG | POINT TAG | LOOP TAG | EQUIPMENT TAG | ELEMENT TAG NUMBER | ELEMENT NUMBER | TRANSMITTER TAG | TRANSMITTER TAG NUMBER "
          "| EQUIP TAG | EQUIP ID | EQUIPMENT ID | EQ ID | ASSET TAG | INDICATOR TAG | LOOP | LOOP NUMBER | LOOP ID | DEVICE TAG | TAG DESIGNATION "
          "| MESSSTELLE | MESSSTELLEN NUMBER | KENNZEICHEN | PLT STELLE | MSR STELLE | REPERE | REPERE INSTRUMENT | NUMERO DE REPERE "
          "| ETIQUETA | NUMERO DE TAG | TAG DEL INSTRUMENTO | POSITION NUMBER | SIGLA | TAG STRUMENTO | TAG DO INSTRUMENTO",
          "the instrument's tag number, as on the loop drawing"),
    _text("well_tag", "identity",
          "WELL TAG NUMBER | WELL NUMBER | WELL ID | WELL ITEM | SCHUTZROHR NUMBER | SCHUTZROHR TAG | REPERE DOIGT DE GANT "
          "| ASSOCIATED WELL | RELATED WELL | WELL TAG NAME",
          "the thermowell's own tag, where it has one"),
    _text("data_sheet_number", "identity",
          "DATA SHEET | DATA SHEET NO | DATA SHEET REFERENCE | DATA SHEET REF | DS NUMBER | DS REF | DS | WELL DATA SHEET NUMBER | INSTRUMENT DATA SHEET "
          "| INSTRUMENT DATA SHEET NUMBER | SENSOR DATA SHEET | SENSOR DATA SHEET NUMBER | ELEMENT DATA SHEET | SPECIFICATION SHEET | SPECIFICATION SHEET NUMBER",
          "data sheet that specifies the well or its sensor; rows with the same one are a family"),
    _text("service", "identity",
          "EQUIP DESCRIPTION | EQ DESCRIPTION | EQUIPMENT DESCRIPTION | ASSET DESCRIPTION | OBJECT DESCRIPTION | SERVICE DESCRIPTION | DUTY | APPLICATION | DESCRIPTION | INSTRUMENT DESCRIPTION | PROCESS SERVICE | FUNCTION | BENENNUNG | BESCHREIBUNG "
          "| DESIGNATION | SERVICIO | DESCRIPCION | SERVIZIO | SERVICO | OMSCHRIJVING | EINSATZ",
          "what the point measures"),
    _text("instrument_type", "identity",
          "ART | DEVICE | EQ TYPE CODE | MESSGERAT | MESSGERAET | GERATEART | GERAETEART | EQUIPMENT TYPE | EQUIP TYPE | EQ TYPE | EQ CLASS | EQUIPMENT CLASS | OBJECT TYPE | INSTRUMENT TYPE | INSTRUMENTTYPE | TYPE | TYPE OF INSTRUMENT | DEVICE TYPE | INSTRUMENT KIND | GERAETETYP | GERATETYP | TYPE D INSTRUMENT "
          "| TIPO DE INSTRUMENTO | TIPO",
          "what kind of instrument the row is"),
    _text("area", "identity", "UNIT | PLANT AREA | PROCESS UNIT | UNIT NUMBER | AREA NUMBER | SYSTEM | ANLAGE | ZONE | AREA UNIT",
          "plant area or process unit"),
    _text("line_number", "identity",
          "LINE | LINE EQUIPMENT NUMBER | PIPE LINE NUMBER | LINE OR EQUIPMENT | EQUIPMENT NUMBER | LINE EQUIPMENT | LINE VESSEL NUMBER "
          "| ROHRLEITUNG | LIGNE | LINEA | LINHA | LEIDING | LOCATION", "pipe line or equipment the well sits in"),
    _size("line_size", "identity", "LINE NOMINAL SIZE | NOMINAL BORE | NB | LINE BORE | PIPE BORE | PIPE SIZE | NOMINAL PIPE SIZE | NPS | LINE DN | NENNWEITE | LINE DIAMETER | DIAMETRE LIGNE | DIAMETRO DE LINEA | DN",
          "nominal line size, inches or DN"),
    _text("pipe_schedule", "identity", "SCHEDULE | LINE SCHEDULE | PIPE SCHEDULE NUMBER", "pipe schedule, as in ASME B36.10M"),
    _text("row_status", "identity",
          "OPER STATUS | EQ STATUS | EQUIP STATUS | ASSET STATUS | REC STATUS | CONDITION | OBJECT STATUS | OPERATIONAL STATUS | OPERATING STATUS | STATUS CODE | LIFECYCLE | LIFECYCLE STATUS | LIFE CYCLE STATUS | STS | DEVICE STATUS | RECORD STATUS | POINT STATUS | EXISTING STATUS | EQUIPMENT STATUS | INSTRUMENT STATUS CODE | ZUSTAND | SITUACAO | SITUATION | STATUS | INSTRUMENT STATUS | TAG STATUS | ROW STATE | STATE | REVISION STATUS | ETAT | ESTADO | STATO | STATUT",
          "live, deleted, spare, hold"),
    _text("remarks", "identity",
          "REMARK | NOTES | NOTE | COMMENT | COMMENTS | BEMERKUNG | BEMERKUNGEN | REMARQUES | OBSERVATIONS | OBSERVACIONES | NOTAS "
          "| OPMERKINGEN | ANMERKUNG", "anything said of the row"),
    _text("length_unit", "identity",
          "UNITS | UNIT OF MEASURE | UOM | DIMENSION UNIT | DIMENSIONS UNIT | UNIT OF LENGTH | UNITS OF LENGTH | UNITS OF MEASURE "
          "| DIMENSION UNITS | DIMENSIONS UNITS | LENGTH UNITS | EINHEIT | EENHEID | MASSEINHEIT | UNITE | UNIDAD | ENGINEERING UNIT "
          "| UNIT LENGTH | UNITS LENGTH | UNIT FOR LENGTHS | UNIT DIMENSIONS | UNIT | DIM UNIT",
          "unit of the row's lengths: in or mm"),
    # --- well
    _text("well_connection", "well",
          "PROCESS CONNECTION | WELL PROCESS CONNECTION | PROCESS CONNECTION TYPE | WELL CONNECTION TYPE | PROCESSANSCHLUSS "
          "| PROZESSANSCHLUSS | RACCORD PROCESS | CONNECTION TYPE | WELL TYPE | TYPE OF WELL | CONEXION A PROCESO | MOUNTING WELL "
          "| RACCORDEMENT PROCEDE | PROCESS CONNECTION SIZE TYPE | WELL PROCESS",
          "threaded, flanged, socket weld, weld-in, with size where stated"),
    _size("connection_size", "well", "PROCESS CONNECTION SIZE | WELL CONNECTION SIZE | FLANGE SIZE | CONNECTION SIZE RATING",
          "size of the process connection"),
    _text("shank_form", "well",
          "BAUFORM | SCHUTZROHR BAUFORM | AUSFUHRUNG SCHUTZROHR | WELL FORM | SHANK | WELL SHANK | STEM FORM | SHANK TYPE | WELL STYLE | FORM | SCHUTZROHRFORM | SCHUTZROHR FORM | WELL SHAPE "
          "| STEM TYPE | SHANK STYLE | WELL PROFILE | DIN FORM", "straight, tapered, stepped, or the form of DIN 43772"),
    _text("well_material", "well",
          "WELL MATERIAL | MATERIAL | MATERIAL OF WELL | WELL MATERIAL OF CONSTRUCTION | SCHUTZROHR WERKSTOFF | WERKSTOFF | MATIERE",
          "material of the well"),
    _length("overall_length", "well", 1.5, 122,
            "OVERALL | WELL GL | WELL OVERALL LENGTH | WELL OVERALL | WELL TOTAL LENGTH | TOTAL LENGTH | LENGTH OVERALL | OVERALL WELL LENGTH "
            "| GESAMTLAENGE | GESAMTLANGE | SCHUTZROHR GESAMTLAENGE | SCHUTZROHR GESAMTLANGE | SCHUTZROHRLANGE | SCHUTZROHRLAENGE "
            "| LONGUEUR TOTALE | LONGUEUR HORS TOUT | LONGITUD TOTAL | LUNGHEZZA TOTALE "
            "| COMPRIMENTO TOTAL | TOTALE LENGTE | WELL LENGTH OVERALL | WELL TOTAL | TOTAL WELL LENGTH | LENGTH | WELL LENGTH | L | LENGTH L | WELL LENGTH L",
            "instrument end face to outside of tip"),
    _length("bore_depth", "well", 1.5, 120,
            "WELL BD | BD | DEPTH BOTTOM | DEPTH BORE BOTTOM | DEPTH WELL BOTTOM | DEPTH IN WELL | BORE DEPTH FROM TOP | WELL BORE DEPTH FROM TOP | DEPTH OF HOLE | HOLE DEPTH | DEPTH HOLE | BORE LENGTH | WELL BORE DEPTH | DEPTH OF BORE | HOLE DEPTH | DRILLING DEPTH | BORED DEPTH | INNER DEPTH | INNER LENGTH | BORE DEPTH WELL | DRILLED DEPTH | WELL BORE LENGTH | INSIDE DEPTH | STEM LENGTH "
            "| BOHRUNGSTIEFE | BOHRTIEFE | BOHRUNG TIEFE | INNENTIEFE | INNENLANGE | INNENLAENGE | PROFONDEUR DE PERCAGE | PROFONDEUR D ALESAGE | PROFONDEUR PERCAGE "
            "| PROFUNDIDAD DE TALADRO | PROFUNDIDAD DEL TALADRO | PROFONDITA FORO | BOORDIEPTE | WELL DEPTH | CLEAR DEPTH | USABLE DEPTH | CLEAR BORE DEPTH | USABLE BORE DEPTH | DRILLED LENGTH | INTERNAL LENGTH | INTERNAL DEPTH | DEPTH BORE "
            "| PROFUNDIDAD DE PERFORACION | BORE DEPTH DRAWING | BORE DEPTH DESIGN | DESIGN BORE DEPTH | DRAWING BORE DEPTH | BORE DEPTH DATA SHEET | BORE | WELL BORE | DEPTH | LENGTH | WELL LENGTH | L | LENGTH L | WELL LENGTH L",
            "open face to where a rod of the sensor's diameter stops", measured="measured_bore_depth"),
    _length("measured_bore_depth", "well", 1.5, 120, MEASURED_BORE_DEPTH + " | ROD DEPTH | DIPPED DEPTH | DIP DEPTH | DEPTH BY ROD | DEPTH WITH ROD | BORE DEPTH BY ROD | MEASURED | AS FOUND | FIELD MEASURED | SITE MEASURED",
            "the bore depth that somebody measured at the well"),
    _length("bore_diameter", "well", 0.1, 2.5,
            "BD | HOLE DIAMETER | DIAMETER INT PUITS | DIAMETER BARRENO | BOORGAT DIAMETER | BORE DIAMETER WELL | WELL BORE DIAMETER | BORE SIZE | WELL BORE | INSIDE DIAMETER WELL | WELL INSIDE DIAMETER | BORE INSIDE DIAMETER | WELL BORE SIZE "
            "| BOHRUNGSDURCHMESSER | BOHRUNG DIAMETER | BOHRUNG DURCHMESSER | DIAMETRE D ALESAGE | DIAMETRE DE PERCAGE | DIAMETRO DE TALADRO | BORE | "
            "DIAMETER OF BORE | INNENDURCHMESSER | DIAMETRE INTERIEUR | INTERNAL DIAMETER | INSIDE DIAMETER",
            "inside diameter that takes the sheath"),
    _length("tip_thickness", "well", 0.04, 2,
            "BASE THICKNESS | BOTTOM WALL | BOTTOM WALL THICKNESS | END WALL THICKNESS | END WALL | THICKNESS AT TIP | WELL TT | TIP THICKNESS WELL | WELL TIP THICKNESS | TIP WALL | BOTTOM THICKNESS | END THICKNESS | TIP METAL | THICKNESS TIP | THICKNESS OF TIP "
            "| BODENDICKE | BODENSTARKE | BODENSTAERKE | EPAISSEUR DU FOND | EPAISSEUR FOND | ESPESOR DE PUNTA | ESPESOR PUNTA | ESPESOR DEL FONDO | SPESSORE FONDO "
            "| BODEMDIKTE | TIP THICKNESS T | CLOSED END THICKNESS | TIP | WELL TIP",
            "metal between bore bottom and outside of tip"),
    _length("insertion_length", "well", 0.5, 120,
            "PLONGEE | INDOMPELLENGTE | INDOMPELDIEPTE | INSERTION | INSERTION DEPTH | WELL INSERTION LENGTH | WELL INSERTION | IMMERSION LENGTH | IMMERSION DEPTH | IMMERSION | U LENGTH | U DIMENSION | U DATA SHEET "
            "| LENGTH U | INSERTION U | INSERTION LENGTH U | WELL U LENGTH | EINBAULANGE | EINBAULAENGE | EINTAUCHTIEFE | EINTAUCHLAENGE | EINTAUCHLANGE "
            "| LONGUEUR D INSERTION | LONGUEUR PLONGEANTE | LONGITUD DE INSERCION | LUNGHEZZA DI IMMERSIONE | COMPRIMENTO DE INSERCAO | INSTEEKLENGTE "
            "| WELL INSERTION DEPTH | WELL IMMERSION LENGTH | STEM LENGTH | U | WELL U | UNDER CONNECTION LENGTH | LENGTH | WELL LENGTH | L | LENGTH L | WELL DEPTH | DEPTH | WELL LENGTH L | WELL LENGTH FROM FLANGE FACE | LENGTH FROM FLANGE FACE | LENGTH BELOW FLANGE | LENGTH BELOW CONNECTION | SENSOR INSERTION LENGTH | FLANGE FACE TO TIP | FACE TO TIP | FLANGE TO TIP | RF TO TIP | RAISED FACE TO TIP | THREAD TO TIP | CONNECTION TO TIP | FROM FLANGE FACE TO TIP",
            "process connection to outside of tip"),
    _length("lagging_length", "well", 0, 48,
            "ISOLIERZUSCHLAG | INSULATION EXTENSION | EXTENSION INSULATION | WELL T | EXTENSAO DE ISOLAMENTO | ISOLATIEVERLENGING | ESTENSIONE COIBENTE | LAGGING | LAGGING EXTENSION | LAGGING T | T LENGTH | LENGTH T | LAG LENGTH | LAG | LAGGING EXTENSION LENGTH | WELL LAGGING LENGTH "
            "| WELL LAGGING | LAGGING LENGTH T | LAGGING EXTENSION T | T DIMENSION | LAG EXTENSION | DIMENSION T | LONGUEUR CALORIFUGE | LONGUEUR DE CALORIFUGE | EXTENSION CALORIFUGE | EXTENSION AISLAMIENTO | EXTENSION DE AISLAMIENTO | LONGITUD DE AISLAMIENTO "
            "| LUNGHEZZA COIBENTAZIONE | ISOLATIELENGTE | ISOLIERLANGE | ISOLIERLAENGE | COMPRIMENTO DE ISOLAMENTO",
            "extra length of the well body that clears insulation"),
    _length("root_diameter", "well", 0.2, 6,
            "SHANK ROOT DIAMETER | WELL ROOT DIAMETER | ROOT | ROOT OUTSIDE DIAMETER | SHANK DIAMETER | Q DIAMETER | STEM DIAMETER | ROOT DIAMETER Q",
            "shank outside diameter at the support"),
    _length("tip_diameter", "well", 0.2, 6,
            "TIP OUTSIDE DIAMETER | TIP | WELL TIP | WELL TIP DIAMETER | V DIAMETER | SHANK TIP DIAMETER | TIP DIAMETER V",
            "shank outside diameter at the tip"),
    _size("instrument_thread", "well",
          "INSTRUMENT CONNECTION | INSTRUMENT END CONNECTION | WELL INSTRUMENT CONNECTION | INTERNAL THREAD | WELL INTERNAL THREAD | SENSOR CONNECTION "
          "| INSTRUMENT CONNECTION SIZE | ELEMENT CONNECTION | WELL INSTRUMENT THREAD | INSTRUMENT END THREAD | WELL TOP THREAD "
          "| FUEHLERANSCHLUSS | INSTRUMENTENANSCHLUSS | CONNECTION INSTRUMENT | WELL HEAD CONNECTION | HEAD CONNECTION | ANSCHLUSSGEWINDE "
          "| INSTRUMENT END | WELL THREAD | INNENGEWINDE | GEWINDE | INSTRUMENTAANSLUITING | BINNENDRAAD | DRAAD INSTRUMENT | ROSCA INTERNA | FILETTATURA INTERNA | TARAUDAGE PUITS | TARAUDAGE | KOPFGEWINDE | CONEXION INSTRUMENTO | CONNEXION INSTRUMENT",
          "thread at the well's open end"),
    _length("standoff", "well", 0, 60, "STAND OFF | NOZZLE HEIGHT | NOZZLE STANDOFF | NOZZLE LENGTH | NOZZLE PROJECTION | STUTZENHOEHE",
            "outside of pipe to the face that insertion length is measured from"),
    _text("dimension_source", "well",
          "SOURCE OF DIMENSIONS | DIMENSIONS FROM | DIMENSION BASIS | DATA SOURCE | SOURCE | DIMENSIONS SOURCE | SOURCE OF DATA | WELL DATA SOURCE "
          "| DIMENSIONS PER | DIM SOURCE", "measured, as built, data sheet"),
    _text("measured_by", "well", "VERIFIED BY", "who measured"),
    _text("measured_on", "well", "DATE MEASURED | MEASURED DATE | SURVEY DATE | DATE VERIFIED", "when it was measured"),
    # --- assembly
    _text("sensor_mounting", "assembly",
          "SENSORBEVESTIGING | MOUNTING WELL | SENSOR MOUNTING | HOW HELD | ATTACHMENT OF SENSOR | SENSOR ATTACHMENT | INSERT MOUNTING | MOUNTING | SENSOR MOUNTING TYPE | MOUNTING TYPE | ELEMENT MOUNTING | SENSOR MOUNT | MOUNTING STYLE | SENSOR STYLE | SENSOR HELD BY "
          "| SENSOR ATTACHMENT | SPRING TYPE | SPRING LOADED | SPRING LOADED TYPE | SENSOR FITTING | ELEMENT FITTING | FITTING TYPE | SENSOR ASSEMBLY "
          "| FUEHLERMONTAGE | MONTAGEART | MONTAGE | MONTAJE | SPRING LOADING | SENSOR MOUNTING STYLE | ELEMENT ASSEMBLY | FUEHLERBEFESTIGUNG "
          "| FUHLERBEFESTIGUNG | BEFESTIGUNG | MONTAGE DU CAPTEUR | SENSOR CONNECTION TYPE | PROBE MOUNTING | MOUNTING METHOD",
          "how the sensor is held: spring-loaded fitting, spring-loaded insert, flanged insert, fixed fitting"),
    _text("extension_arrangement", "assembly",
          "EXTENSION PIECE | COLD END EXTENSION | HALSROHR AUSFUHRUNG | HALSROHRAUSFUHRUNG | AUSFUHRUNG HALSROHR | EXT ARR | EXTENSION | EXTENSION TYPE | EXTENSION TYPE INSTALLED | EXTENSION STYLE | HEAD EXTENSION | HEAD EXTENSION TYPE | EXTENSION ASSEMBLY | EXTENSION FITTINGS "
          "| EXTENSION ARRANGEMENT TYPE | NIPPLE UNION | HALSROHR TYP | EXTENSION PARTS | VERLAENGERUNG | VERLANGERUNG | RALLONGE | EXTENSION HARDWARE "
          "| HALSROHRART | HALSROHR | NECK | NECK TUBE | NIPPLE | NIPPLE UNION ARRANGEMENT | EXTENSION MAKE UP | NECK TYPE",
          "none, nipple, nipple and coupling, nipple and union, nipple-union-nipple, neck tube"),
    _length("extension_length", "assembly", 0, 60,
            "EXTENSION LENGTH | LENGTH OF EXTENSION | HEAD EXTENSION LENGTH | EXTENSION E | LENGTH EXTENSION | EXTENSION LENGTH E | E LENGTH | VERLAENGERUNG LAENGE | UNION LENGTH "
            "| HALSROHRLAENGE | HALSROHRLANGE | HALSLAENGE | HALSLANGE | NECK LENGTH | NECK TUBE LENGTH | LONGUEUR D EXTENSION | LONGUEUR RALLONGE | HALSROHR "
            "| NIPPLE UNION LENGTH | LONGITUD DE EXTENSION | NECK | NECK TUBE | EXTENSION | HEAD EXTENSION | HALS",
            "length of the extension; what it means is for the design basis to say", measured="installed_length"),
    _length("nipple_length", "assembly", 0, 36,
            "NIPPLE | NIPPLE 1 | NIPPLE 1 LENGTH | 1ST NIPPLE LENGTH | 1ST NIPPLE | FIRST NIPPLE LENGTH | FIRST NIPPLE | LOWER NIPPLE LENGTH | LOWER NIPPLE | COLD END NIPPLE | LENGTH OF NIPPLE | NIPPLE SIZE | NIPPLE LENGTH BOUGHT | LOWER NIPPLE LENGTH BOUGHT | PIPE NIPPLE LENGTH | NIPPLE LENGTH OVERALL | NIPPLE LENGTH ORDERED | BARREL NIPPLE LENGTH | BARREL NIPPLE | NIPPLE TBE LENGTH | NIPPLE CUT LENGTH | NIPPLE 1 LENGTH BOUGHT",
            "a nipple's overall length as bought", measured=NOT_MEASURED),
    _length("second_nipple_length", "assembly", 0, 36,
            "NIPPLE 2 | NIPPLE 2 LENGTH | NIPPLE LENGTH 2 | SECOND NIPPLE | 2ND NIPPLE LENGTH | 2ND NIPPLE | UPPER NIPPLE LENGTH | UPPER NIPPLE "
            "| NIPPLE TWO | TOP NIPPLE LENGTH | TOP NIPPLE | NIPPLE 2 LENGTH BOUGHT | SECOND NIPPLE LENGTH BOUGHT | UPPER NIPPLE LENGTH BOUGHT",
            "overall length as bought of the nipple above a union", measured=NOT_MEASURED),
    _length("installed_length", "assembly", 0, 60,
            "INSTALLED | EXTENSION INSTALLED LENGTH | INSTALLED EXTENSION LENGTH | EXTENSION INSTALLED | INSTALLED EXTENSION | MADE UP LENGTH | MADE UP EXTENSION "
            "| EXTENSION LENGTH INSTALLED | EXTENSION MADE UP LENGTH | EXTENSION LENGTH MADE UP | EXTENSION FACE TO FACE | INSTALLED LENGTH EXTENSION | EXTENSION LENGTH AS INSTALLED "
            "| NIPPLE INSTALLED LENGTH | INSTALLED NIPPLE LENGTH | NIPPLE LENGTH INSTALLED | NIPPLE UNION LENGTH INSTALLED | EXTENSION OVERALL INSTALLED "
            "| EXTENSION LENGTH INSTALLED FACE TO FACE | EXTENSION INSTALLED FACE TO FACE | EXTENSION ASSY LENGTH MADE UP | EXTENSION ASSEMBLY LENGTH INSTALLED | EXTENSION LENGTH FACE TO FACE | NIPPLE FACE TO FACE | NIPPLE LENGTH FACE TO FACE | NIPPLE MADE UP LENGTH | MADE UP NIPPLE LENGTH | NIPPLE LENGTH MADE UP | INSTALLED LENGTH OF EXTENSION",
            "what the whole extension adds, face to face, once made up"),
    _size("extension_thread", "assembly", "NIPPLE THREAD | EXTENSION CONNECTION | EXTENSION SIZE | NIPPLE SIZE | NIPPLE SIZE THREAD | HALSROHRGEWINDE | NIPPLE THREAD SIZE | HALSROHR GEWINDE",
          "thread at the top end of the extension"),
    _text("head_type", "assembly", "CONNECTION HEAD | HEAD | CONNECTION HEAD TYPE | TERMINAL HEAD | ANSCHLUSSKOPF | TETE DE RACCORDEMENT | KOPF",
          "connection head"),
    _length("insulation_thickness", "assembly", 0, 24,
            "INSULATION | INSULATION THICKNESS LINE | LINE INSULATION | LINE INSULATION THICKNESS | PIPE INSULATION | DAEMMDICKE | ISOLIERDICKE | INSULATION LENGTH",
            "thickness of the insulation at the well"),
    _length("withdrawal_clearance", "assembly", 0, 400, "CLEARANCE | FREE SPACE | WITHDRAWAL SPACE | REMOVAL CLEARANCE | PULLING CLEARANCE",
            "free length above the mounting face"),
    _text("calibration_interval", "assembly", "CALIBRATION FREQUENCY | CALIBRATION PERIOD | CALIBRATION", "how often the sensor is pulled"),
    # --- sensor
    _text("sensor_type", "sensor",
          "FUHLERART | FUEHLERART | FUHLERELEMENT | ELEMENTART | ELEMENT TYPE | SENSOR | ELEMENT | THERMOCOUPLE TYPE | SENSOR ELEMENT | SENSOR KIND | ELEMENT KIND | PROBE TYPE | FUEHLERTYP | FUHLERTYP | FUHLER "
          "| SENSORTYP | TYPE DE CAPTEUR | CAPTEUR | TIPO DE SENSOR | TEMPERATURE ELEMENT | RTD | TC TYPE | MEASURING ELEMENT | THERMOCOUPLE | RTD THERMOCOUPLE | RTD OR THERMOCOUPLE | RTD TYPE | TYPE OF SENSOR | TYPE OF ELEMENT "
          "| MESSELEMENT", "resistance element, thermocouple type, or a stem that is no sensor"),
    _text("element_count", "sensor", "NUMBER OF ELEMENTS | ELEMENTS | SIMPLEX DUPLEX | SINGLE DUPLEX | ELEMENT QUANTITY | SINGLE DUAL",
          "single or duplex"),
    _size("sensor_thread", "sensor", "FITTING THREAD | ELEMENT THREAD | PROBE THREAD | SENSOR FITTING THREAD | MOUNTING THREAD | SENSOR THREAD SIZE | FUHLERGEWINDE | FUEHLERGEWINDE",
          "thread of the fitting that holds the sensor"),
    _length("sheath_diameter", "sensor", 0.02, 1.2,
            "SHEATH OUTSIDE DIAMETER | SENSOR DIAMETER | PROBE DIAMETER | SHEATH SIZE | ELEMENT DIAMETER | SHEATH | SENSOR OUTSIDE DIAMETER | PROBE OUTSIDE DIAMETER "
            "| INSERT DIAMETER | FUEHLERDURCHMESSER | MANTELDURCHMESSER | DIAMETRE GAINE | FUHLERDURCHMESSER | MESSEINSATZ DURCHMESSER | ELEMENT OUTSIDE DIAMETER "
            "| SENSOR SHEATH DIAMETER | FUHLER DIAMETER",
            "outside diameter of the sheath"),
    _text("sheath_material", "sensor", "SHEATH MATERIAL | SHEATH | MATERIAL OF SHEATH | SENSOR SHEATH MATERIAL | SENSOR MATERIAL | ELEMENT MATERIAL | PROBE MATERIAL", "material of the sheath"),
    _length("probe_length", "sensor", 1, 250,
            "SENSOR LENGTH | ELEMENT LENGTH | INSERT LENGTH | SHEATH LENGTH | PROBE LENGTH ORDERED | EXISTING PROBE LENGTH | LENGTH OF SENSOR | SENSOR INSERT LENGTH "
            "| FUEHLERLAENGE | FUHLERLANGE | MESSEINSATZLAENGE | MESSEINSATZLANGE | LONGUEUR DU CAPTEUR | LONGUEUR CAPTEUR | LONGITUD DEL SENSOR | LONGITUD SENSOR | RTD LENGTH | TC LENGTH | EXISTING SENSOR LENGTH "
            "| PROBE LENGTH EXISTING | SENSOR LENGTH EXISTING | X LENGTH | PROBE LENGTH X | SENSOR PROBE LENGTH | LENGTH SENSOR | EINSATZLANGE | LONGITUD DEL INSERTO "
            "| STEM LENGTH | INSTALLED | MEASURED | AS FOUND | FIELD MEASURED | SITE MEASURED | INSTALLED PROBE LENGTH | INSTALLED SENSOR LENGTH | PROBE LENGTH INSTALLED | LENGTH PROBE | LENGTH | L | SENSOR INSERTION LENGTH | PROBE | LENGTH IN PLACE | EXISTING STEM LENGTH",
            "sheath length, intended or in place, from the seat plane to the tip, spring relaxed"),
    _length("spring_travel", "sensor", 0.05, 4, "TRAVEL | STROKE | SPRING STROKE | SENSOR SPRING TRAVEL | FEDERWEG | COURSE DU RESSORT | RECORRIDO DEL MUELLE",
            "how far the spring moves from relaxed to solid"),
    _length("compression_found", "sensor", 0, 4,
            "SPRING COMPRESSION FOUND | COMPRESSION AS FOUND | SPRING COMPRESSION AS FOUND | COMPRESSION MEASURED | AS FOUND COMPRESSION "
            "| COMPRESSION FOUND IN PLACE",
            "how far the spring of the sensor in place was found compressed, its thread tight"),
    _text("tip_contact", "sensor", "TIP TOUCHES | TIP TOUCHES BOTTOM | SENSOR TOUCHES BOTTOM | SENSOR BOTTOMS | TIP BOTTOMS | CONTACT FOUND",
          "whether the tip of the sensor in place was found to touch: yes, no"),
    _text("replaced_in_kind", "sensor",
          "REPLACE IN KIND | REPLACEMENT IN KIND | IN KIND | LIKE FOR LIKE | REPLACE LIKE FOR LIKE | LENGTH PROVEN IN SERVICE | PROVEN IN SERVICE",
          "whether the length in place is proven in service and bought again as it is: yes, no"),
    _text("accuracy_class", "sensor", "CLASS | TOLERANCE CLASS | ACCURACY | SENSOR CLASS", "tolerance class of the sensor"),
    _text("wires", "sensor", "NUMBER OF WIRES | WIRE | WIRING | LEADS", "2, 3 or 4 wire"),
    # --- order
    _number("quantity_wanted", "order", "QUANTITY | ORDER QUANTITY | QUANTITY TO ORDER | QUANTITY REQUIRED | STUECKZAHL | MENGE | CANTIDAD | QUANTITE",
            "how many to order, as 2 or 2 off; 0 or no is none, blank is one"),
    _length("ordered_length", "order", 1, 250, "LENGTH ORDERED | ORDER LENGTH | PURCHASED LENGTH", "length already on order"),
    _text("order_number", "order", "PURCHASE ORDER | PURCHASE ORDER NUMBER | PO NUMBER | ORDER", "the order it stands on"),
    # --- process
    _text("design_temperature", "process", "DESIGN TEMP | TEMPERATURE DESIGN | MAXIMUM TEMPERATURE | OPERATING TEMPERATURE | PROCESS TEMPERATURE "
          "| AUSLEGUNGSTEMPERATUR | TEMPERATURE DE CALCUL | TEMPERATURA DE DISENO | TEMPERATURA DI PROGETTO | ONTWERPTEMPERATUUR",
          "design temperature"),
    _text("design_pressure", "process", "PRESSURE DESIGN | MAXIMUM PRESSURE | OPERATING PRESSURE | PROCESS PRESSURE "
          "| AUSLEGUNGSDRUCK | PRESSION DE CALCUL | PRESION DE DISENO | PRESSIONE DI PROGETTO", "design pressure"),
)  # fmt: skip

FIELD: dict[str, Field] = {entry.name: entry for entry in FIELDS}
LENGTH_FIELDS: tuple[str, ...] = tuple(entry.name for entry in FIELDS if entry.kind is Kind.LENGTH)
WELL_FIELDS: tuple[str, ...] = tuple(entry.name for entry in FIELDS if entry.group == "well")
SENSOR_FIELDS: tuple[str, ...] = tuple(entry.name for entry in FIELDS if entry.group in {"assembly", "sensor"})
