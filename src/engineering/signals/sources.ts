/** Sources that several calculations of signals rest on. */
import type { Source } from '../calculation.ts'

export const semitec: Source = {
  title: 'Semitec AT thermistors, data sheet, type 103AT',
  where: 'table, kΩ',
  how: 'read',
}
export const boschNtc: Source = {
  title: 'Bosch Motorsport, Temperature Sensor NTC M8-HT, data sheet',
  where: 'bosch-motorsport.de, table, Ω',
  how: 'read',
}
export const vishayNtc: Source = {
  title: 'Vishay NTCLE100E3103, data sheet',
  where: 'B25/85 3977 K and R–T coefficients, as quoted in several repositories',
  how: 'read',
}
export const laserDriver: Source = {
  title: 'Manual of a laser driver LDT-5525, appendix A: thermistor calibration, printed fit error below 0.01 K',
  where: 'manualsdump.com/138826, page 41',
  how: 'read',
}
export const steinhartHart: Source = {
  title: 'Steinhart & Hart, Calibration curves for thermistors, Deep-Sea Research 15 (1968) 497–503',
  how: 'memory',
}
export const iec60751: Source = {
  title: 'IEC 60751:2008, Industrial platinum resistance thermometers',
  where: 'constants A, B, C as cited at tinkererway.dev; table at sensorsci.com',
  how: 'read',
}
export const if97: Source = {
  title: 'IAPWS R7-97(2012), Industrial Formulation 1997 (IF97)',
  where: 'section 8, saturation-temperature equation (31)',
  how: 'memory',
}
export const isa: Source = {
  title: 'ISO 2533 / ICAO Doc 7488, standard atmosphere, troposphere',
  how: 'memory',
}

export const ZERO_CELSIUS = 273.15
