"""Words of seven languages that stand in a dimension cell: instead of the number, or beside it.

The lists are common practice, no source. Spelling: small letters, no accents, no dots or slashes, `-` as a blank,
as `remarks.canonical` writes them.
"""


def _phrases(**languages: str) -> frozenset[str]:
    return frozenset(phrase.strip() for phrases in languages.values() for phrase in phrases.split(","))


PLACEHOLDERS = _phrases(
    english="tbd, tba, tbc, tbv, hold, on hold, later, to follow, pending, na, n a, nil, none, none given, "
    "none stated, unknown, unk, blank, by vendor, no data, x, xx, xxx, to be determined, to be defined, "
    "to be confirmed, to be advised, to be verified, to be measured, not applicable, not available, not known, "
    "not given, not stated, not specified",
    not_measured="n m, nm, not measured, not yet measured, not accessible, no access, inaccessible, not checked, "
    "not surveyed, not found, not taken, not recorded, unable to measure, could not measure",
    german="entfallt, ka, k a, keine angabe, keine, unbekannt, offen, folgt, fehlt, spater, nn, n n, nv, n v, "
    "nicht bekannt, nicht vorhanden, nicht angegeben, nicht zutreffend, zu klaren, zu bestimmen, wird nachgereicht, "
    "nicht gemessen, noch nicht gemessen, nicht zuganglich, unzuganglich, kein zugang, nicht gepruft",
    french="so, s o, sans objet, a definir, a determiner, a confirmer, a preciser, inconnu, inconnue, nd, n d, nc, "
    "n c, non defini, non definie, non disponible, non communique, non applicable, plus tard, en attente, aucun, "
    "aucune, neant, non mesure, non mesuree, non accessible, inaccessible, pas d'acces, non releve",
    spanish="por definir, por determinar, por confirmar, a confirmar, desconocido, desconocida, no disponible, "
    "no aplica, no aplicable, pendiente, ninguno, ninguna, sin dato, sin datos, sd, s d, nd, falta, mas tarde, "
    "no medido, no medida, sin medir, sin acceso, inaccesible, no accesible",
    italian="da definire, da determinare, da confermare, sconosciuto, sconosciuta, ignoto, ignota, non disponibile, "
    "nd, non applicabile, in attesa, nessuno, nessuna, mancante, piu tardi, non misurato, non misurata, "
    "non accessibile, inaccessibile, nessun accesso",
    portuguese="a definir, por definir, a determinar, a confirmar, desconhecido, desconhecida, nao disponivel, nd, "
    "nao aplicavel, nao se aplica, pendente, nenhum, nenhuma, sem dados, mais tarde, nao medido, nao medida, "
    "sem acesso, inacessivel",
    dutch="nvt, n v t, onbekend, ntb, n t b, nb, n b, nader te bepalen, nog te bepalen, te bepalen, geen, geen opgave, "
    "volgt, niet bekend, niet beschikbaar, niet van toepassing, niet gemeten, niet toegankelijk, ontoegankelijk, "
    "geen toegang",
)
CONFIRMING = _phrases(
    english="*, as built, asbuilt, as found, as measured, measured, meas, meas'd, verified, confirmed, checked, "
    "actual, "
    "field verified, field measured, field checked, field confirmed, site verified, site measured, site checked, "
    "measured on site, measured in field, measured in the field, verified on site, verified in field, "
    "verified in the field, checked on site, confirmed on site",
    german="gemessen, nachgemessen, aufgemessen, gepruft, bestatigt, verifiziert, wie gebaut, vor ort gemessen",
    french="mesure, mesuree, verifie, verifiee, confirme, confirmee, releve, relevee, tel que construit, "
    "mesure sur site",
    spanish="medido, medida, verificado, verificada, confirmado, confirmada, comprobado, comprobada, segun construido, "
    "medido en campo, verificado en campo",
    italian="misurato, misurata, verificato, verificata, confermato, confermata, come costruito, misurato in campo",
    portuguese="medido, medida, verificado, verificada, confirmado, confirmada, conferido, conferida, "
    "conforme construido, medido em campo, verificado em campo",
    dutch="gemeten, nagemeten, geverifieerd, bevestigd, gecontroleerd, zoals gebouwd, ter plaatse gemeten",
)
DOUBTING = _phrases(
    marks="?, ~, ≈, ≅",
    english="tbc, tbd, tba, tbv, est, estimate, estimated, approx, approximate, approximately, about, or so, assumed, "
    "assume, guess, guessed, typ, typical, nom, nominal, ref, reference, prelim, preliminary, hold, on hold, "
    "to be confirmed, to be verified, to be checked, to be determined, to be measured, to confirm, to verify, "
    "to check, verify, check, confirm, unverified, unconfirmed, not verified, not confirmed, not measured, "
    "not checked, unsure, not sure",
    german="ca, circa, zirka, etwa, ungefahr, geschatzt, gesch, angenommen, annahme, vorlaufig, unbestatigt, "
    "zu prufen, zu bestatigen, zu klaren, zu messen, nicht gepruft, nicht gemessen, nicht bestatigt",
    french="env, environ, estime, estimee, approximatif, suppose, supposee, provisoire, a confirmer, a verifier, "
    "a mesurer, non verifie, non verifiee, non confirme, non mesure",
    spanish="aprox, aproximado, aproximada, aproximadamente, estimado, estimada, supuesto, supuesta, preliminar, "
    "cerca de, por confirmar, a confirmar, por verificar, a verificar, por medir, no verificado, no medido, "
    "sin verificar",
    italian="ca, circa, stimato, stimata, approssimativo, presunto, presunta, preliminare, da confermare, "
    "da verificare, da misurare, non verificato, non misurato",
    portuguese="aprox, cerca de, estimado, estimada, presumido, presumida, a confirmar, por confirmar, a verificar, "
    "nao verificado, nao medido",
    dutch="ca, circa, ongeveer, geschat, aangenomen, voorlopig, te bevestigen, te controleren, te meten, ntb, "
    "niet gecontroleerd, niet gemeten",
)
# a diameter's sign or letters say which size is meant, not how big it is
NEUTRAL = _phrases(
    signs="ø, ⌀, φ, ∅",
    english="dia, diam, diameter, od, id",
    german="durchmesser",
    french="diametre",
    spanish="diametro",
)
