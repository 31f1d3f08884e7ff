/** Published thermistor tables, °C and Ω, as the tests use them. Sources beside each. */
const rows = (text: string): (readonly [number, number])[] =>
  text
    .trim()
    .split(';')
    .map((row) => row.split(':').map(Number) as unknown as readonly [number, number])

/** Semitec AT data sheet, 103AT [read]. */
export const SEMITEC_103AT = rows(
  '-20:67770;-10:42470;0:27280;10:17960;20:12090;25:10000;30:8313;40:5827;50:4160;60:3020;70:2228;85:1451;100:973.1;110:757.6',
)
/** Bosch Motorsport NTC M8-HT, bosch-motorsport.de [read]. */
export const BOSCH_M8HT = rows(
  '-20:71668;-10:44087;0:27936;10:18187;20:12136;25:10000;30:8284;40:5774;50:4103;60:2967;70:2182;80:1629;90:1234;100:946.6;110:735.5;120:578.1;130:459.4;140:368.8;150:298.9',
)
/** 10 kΩ, B25/85 about 3975 K: easymanua.ls, Fronius TransPocket 150, page 72 [read]. */
export const FRONIUS_10K = rows(
  '0:32650;5:25388;10:19900;15:15708;20:12490;25:10000;30:8057;35:6531;40:5327;45:4369;50:3603;55:2986;60:2488;65:2083;70:1752;75:1481;80:1258;85:1072;90:917.7;95:788.5;100:680',
)
/** LDT-5525 manual, appendix A [read]; its 40 °C entry is a misprint (misses its own stated fit by 0.47 K) and left out. */
export const LASER_DRIVER = rows('0:32128;10:19549;20:12262;25:9814;30:7908;50:3542')
