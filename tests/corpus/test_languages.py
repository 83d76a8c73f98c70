"""Headings and words of seven languages."""

from collections.abc import Callable

from openpyxl.worksheet.worksheet import Worksheet

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


def test_german_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Messstellen-Nr. | Benennung | Schutzrohr-Nr. | Prozessanschluss | Werkstoff | Gesamtlänge | Bohrungstiefe | Bodendicke | Einbaulänge | Bohrungs-Ø | Fühler-Ø | Fühlertyp | Fühlerbefestigung | Halsrohr | Halsrohrlänge | Federweg | Messeinsatzlänge | Bemerkungen
        | | | | | mm | mm | mm | mm | mm | mm | | | | mm | mm | mm |
        TE 101 | Dampf | TW 101 | Flansch DN 25 | 1.4571 | 241 | 235 | 6 | 190 | 7 | 6 | Pt100 | gefederte Verschraubung | ohne | | 10 | 235 | neu
    """)
    assert read() == rows("""
        row | tag A | service B | well tag C | well connection D | well material E | overall length F | bore depth G | tip thickness H | insertion length I | bore diameter J | sheath diameter K | sensor type L | sensor mounting M | extension arrangement N | extension length O | spring travel P | probe length Q | remarks R
        3 | TE 101 | Dampf | TW 101 | Flansch DN 25 | 1.4571 | 241 | 235 | 6 | 190 | 7 | 6 | Pt100 | gefederte Verschraubung | ohne | | 10 | 235 | neu
    """)


def test_french_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Repère | Désignation | Raccord procédé | Longueur totale (mm) | Profondeur de perçage (mm) | Épaisseur du fond (mm) | Longueur plongeante (mm) | Diamètre de perçage (mm) | Type de capteur | Ø gaine (mm) | Montage | Longueur du capteur (mm) | Remarques
        TE-101 | Vapeur | bride | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | raccord à ressort | 235 | neuf
    """)
    assert read() == rows("""
        row | tag A | service B | well connection C | overall length D | bore depth E | tip thickness F | insertion length G | bore diameter H | sensor type I | sheath diameter J | sensor mounting K | probe length L | remarks M
        2 | TE-101 | Vapeur | bride | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | raccord à ressort | 235 | neuf
    """)


def test_spanish_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Etiqueta | Servicio | Conexión a proceso | Longitud total (mm) | Profundidad de taladro (mm) | Espesor de punta (mm) | Longitud de inserción (mm) | Diámetro de taladro (mm) | Tipo de sensor | Diámetro del sensor (mm) | Tipo de montaje | Longitud del sensor (mm) | Observaciones
        TE-101 | Vapor | brida | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | racor con muelle | 235 | nuevo
    """)
    assert read() == rows("""
        row | tag A | service B | well connection C | overall length D | bore depth E | tip thickness F | insertion length G | bore diameter H | sensor type I | sheath diameter J | sensor mounting K | probe length L | remarks M
        2 | TE-101 | Vapor | brida | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | racor con muelle | 235 | nuevo
    """)


def test_italian_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Sigla | Servizio | Attacco al processo | Lunghezza totale (mm) | Profondità foro (mm) | Spessore fondo (mm) | Lunghezza di immersione (mm) | Diametro foro (mm) | Tipo di sensore | Diametro guaina (mm) | Montaggio | Lunghezza sensore (mm) | Note
        TE-101 | Vapore | flangia | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | raccordo a molla | 235 | nuovo
    """)
    assert read() == rows("""
        row | tag A | service B | well connection C | overall length D | bore depth E | tip thickness F | insertion length G | bore diameter H | sensor type I | sheath diameter J | sensor mounting K | probe length L | remarks M
        2 | TE-101 | Vapore | flangia | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | raccordo a molla | 235 | nuovo
    """)


def test_portuguese_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        TAG | Serviço | Conexão ao processo | Comprimento total (mm) | Profundidade do furo (mm) | Espessura da ponta (mm) | Comprimento de inserção (mm) | Diâmetro do furo (mm) | Tipo de sensor | Diâmetro da bainha (mm) | Montagem | Comprimento do sensor (mm) | Observações
        TE-101 | Vapor | flange | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | conexão com mola | 235 | novo
    """)
    assert read() == rows("""
        row | tag A | service B | well connection C | overall length D | bore depth E | tip thickness F | insertion length G | bore diameter H | sensor type I | sheath diameter J | sensor mounting K | probe length L | remarks M
        2 | TE-101 | Vapor | flange | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | conexão com mola | 235 | novo
    """)


def test_dutch_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tagnummer | Omschrijving | Procesaansluiting | Totale lengte (mm) | Boordiepte (mm) | Bodemdikte (mm) | Insteeklengte (mm) | Boordiameter (mm) | Type sensor | Manteldiameter (mm) | Montage | Sensorlengte (mm) | Opmerkingen
        TE-101 | Stoom | flens | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | verende wartel | 235 | nieuw
    """)
    assert read() == rows("""
        row | tag A | service B | well connection C | overall length D | bore depth E | tip thickness F | insertion length G | bore diameter H | sensor type I | sheath diameter J | sensor mounting K | probe length L | remarks M
        2 | TE-101 | Stoom | flens | 241 | 235 | 6 | 190 | 7 | Pt100 | 6 | verende wartel | 235 | nieuw
    """)


def test_two_languages_in_one_heading(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag No. / Repère | Overall length / Longueur totale (mm) | Bore depth~Profondeur de perçage~mm | Tip thickness / Épaisseur du fond mm
        TE-101 | 241 | 235 | 6
    """)
    assert read() == rows("""
        row | tag A | overall length B | bore depth C | tip thickness D
        2 | TE-101 | 241 | 235 | 6
    """)


def test_two_languages_on_two_rows(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag | Service | Overall length | Bore depth | Tip thickness
        Messstelle | Einsatz | Gesamtlänge | Bohrungstiefe | Bodendicke
        | | mm | mm | mm
        TE-101 | Dampf | 241 | 235 | 6
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D | tip thickness E
        4 | TE-101 | Dampf | 241 | 235 | 6
    """)
