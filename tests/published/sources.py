"""The documents that the values stand in, each named so that it can be found."""

from __future__ import annotations

from published.check import Source

NDS = Source(
    name="NDS 2018",
    document="American Wood Council, National Design Specification for Wood Construction, "
    "ANSI/AWC NDS-2018, Leesburg VA, 2017; sold, awc.org",
    sold=True,
)
NDS_SUPPLEMENT = Source(
    name="NDS Supplement 2018",
    document="American Wood Council, NDS Supplement: Design Values for Wood Construction, 2018 "
    "edition, Leesburg VA, 2017; sold, awc.org",
    sold=True,
)
FORMWORK = Source(
    name="Peurifoy and Oberlender",
    document="R. L. Peurifoy and G. D. Oberlender, Formwork for Concrete Structures, 4th edition, "
    "McGraw-Hill, 2010, after tables of the American Forest & Paper Association",
    sold=True,
)
TR12 = Source(
    name="AWC TR12",
    document="American Wood Council, Technical Report 12: General Dowel Equations for Calculating "
    "Lateral Connection Values, Leesburg VA, 2015; awc.org",
)
SOLVED_EXAMPLES = Source(
    name="AWC solved examples",
    document="American Wood Council, Structural Wood Design Solved Example Problems, 2015/2018 "
    "NDS; awc.org",
)
BUILDING_CODE = Source(
    name="IBC 2018",
    document="International Code Council, 2018 International Building Code, table 2603.13.2, page "
    "603 (sister table: IRC R703.15.2), free to read at codes.iccsafe.org; research behind it: "
    "Applied Building Technology Group, Research Report 1503-02, 2015, appliedbuildingtech.com",
    sold=True,
)
BREYER = Source(
    name="Breyer, by a notebook",
    document="examples of D. E. Breyer and others, Design of Wood Structures, McGraw-Hill, worked "
    "out in a public notebook: github.com/willysw/wsweng, .scratch/s1.ipynb",
)
TOOLBOX = Source(
    name="The Engineering ToolBox",
    document='"Wood Screws - Withdrawal Force", The Engineering ToolBox, worked example: '
    "engineeringtoolbox.com/wood-screws-allowable-withdrawal-load-d_1815.html",
)
WOOD_HANDBOOK = Source(
    name="Wood Handbook",
    document="USDA Forest Service, Forest Products Laboratory, Wood Handbook: Wood as an "
    "Engineering Material, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 8, Fastenings; "
    "public domain, fpl.fs.usda.gov",
)
FORMULAS = Source(
    name="Hicks",
    document="T. G. Hicks, Civil Engineering Formulas, 2nd edition, McGraw-Hill, chapter 2 (beams, "
    "after J. H. Callender, Time-Saver Standards) and chapter 6 (timber)",
    sold=True,
)
CALCS = Source(
    name="ASCE 7 example on the web",
    document='"Seismic Demands in Nonstructural Components (ASCE 7)", worked on the page: '
    "calcs.app/analysis/nonstructural-components-seismic-demand",
)
EVERETT = Source(
    name="City of Everett, permit record",
    document="City of Everett WA, public permit records, document 1614580, page 69, anchorage of a "
    "heat pump by ASCE 7-10: lfportal.everettwa.gov/WebLink/0/doc/1614580/Page69.aspx",
)
SANTA_ANA = Source(
    name="City of Santa Ana, permit records",
    document="City of Santa Ana CA, public permit records, attachments by ASCE 7: documents "
    "375324, page 10, and 375308, page 106: publicdocs.santa-ana.org/BuildingWeblink/0/doc/375324/"
    "Page10.aspx and .../375308/Page106.aspx",
)
LOAD_SHEET = Source(
    name="ASCE 7 worked sheet",
    document='"Earthquake load, non-structural components", worked by ASCE 7-16 section 13.3: '
    "scribd.com/document/672669955",
)
STRUCTURAL_MANUAL = Source(
    name="ICE manual",
    document="Institution of Civil Engineers, ICE Manual of Structural Design: Buildings, ICE "
    "Publishing, London, table 19.9, after EN 1995-1-1:2004 table 3.1",
    sold=True,
)
SCHNEIDER = Source(
    name="Schneider",
    document="Schneider, Bautabellen fuer Ingenieure, tables of bolts in C24 to DIN EN 1995-1-1, "
    "as carried by github.com/knippershelbig/StructuralDesignKit_Holz",
    sold=True,
)
EN_1995 = Source(
    name="EN 1995-1-1",
    document="CEN, EN 1995-1-1:2004+A1:2008, Eurocode 5: Design of timber structures, part 1-1; "
    "sold by the national standards bodies",
    sold=True,
)
EN_338 = Source(
    name="EN 338",
    document="CEN, EN 338:2016, Structural timber: Strength classes, table 1; sold by the "
    "national standards bodies",
    sold=True,
)
ASME_WOOD_SCREWS = Source(
    name="ASME B18.6.1",
    document="ASME B18.6.1-1981 (R1997), Wood Screws (Inch Series), New York; sold, asme.org",
    sold=True,
)
ELECTRICAL_CODE = Source(
    name="NEC",
    document="NFPA 70, National Electrical Code, 300.4(A)(1), bored holes; section reproduced at "
    "naffainc.com/x/CB2/Elect/300-4.HTM",
)
WIRING_RULES = Source(
    name="BS 7671",
    document="BS 7671:2018, Requirements for Electrical Installations, 522.6.202, as two trade "
    "pages quote it: the-regs.co.uk/blog/?p=586 and owelectric.co.uk/posts/how-to-install-cables-"
    "to-avoid-damage-safe-zones-in-floors-ceilings-walls-partitions-bs7671-regulations",
)
STABILITY_RULES = Source(
    name="ASTM F2057-23",
    document="ASTM F2057-23, Clothing Storage Units, as ASTM's own magazine tells its revision "
    "(test apparatus of 60 lb in place of 50 lb; the STURDY Act asks for children to 60 lb): "
    "sn.astm.org/update/clothing-storage-units-standard-ma23.html",
)
CHVATAL = Source(
    name="Chvatal",
    document="V. Chvatal, Linear Programming, W. H. Freeman, New York, 1983, chapter 13",
)
ENCYCLOPEDIA = Source(
    name="Wikipedia",
    document='"Cutting stock problem", Wikipedia: en.wikipedia.org/wiki/Cutting_stock_problem',
)
FALKENAUER = Source(
    name="Falkenauer",
    document="E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of "
    "Heuristics 2 (1996); instances t60_00 and u120_00 of the OR-Library, "
    "people.brunel.ac.uk/~mastjjb/jeb/info.html",
)
RESTRAINT_STANDARD = Source(
    name="ASTM F3096-23",
    document="ASTM F3096-23, Tipover Restraints Used with Clothing Storage Units; test load as "
    "told by a law firm's alert of 2023: womblebonddickinson.com/us/insights/alerts/"
    "american-home-furnishings-association-spotlights-new-voluntary-safety-standards-tip",
)
