/** Sources that the calculations of brakes share. */
import type { Source } from '../calculation.ts'

export const gillespie: Source = {
  title: 'Gillespie, Fundamentals of Vehicle Dynamics, chapter 3',
  how: 'memory',
}
export const limpert: Source = {
  title: 'Limpert, Brake Design and Safety, chapters 5 and 7; the same author’s DARCOM-P 706-358',
  how: 'memory',
}
export const shigley: Source = {
  title: 'Shigley, Mechanical Engineering Design, chapter 16, internal expanding shoes',
  how: 'memory',
}
export const unR13H: Source = { title: 'UN Regulation 13-H, annex 3', how: 'memory' }
export const masterCylinderTable: Source = {
  title: 'Formula for master cylinder pressure, hotrodheaven.com, tech/brakes/brakes4.htm',
  where: '100 lbf, pedal 6 to 1: 3/4 in 1359, 7/8 in 998, 1 in 764 lbf/in²',
  how: 'read',
}
export const brakeHoseTable: Source = {
  title: 'FMVSS 106 (49 CFR 571.106), table I, greatest expansion of brake hose',
  where: '1/8 inch, regular expansion: 0.66 cc/ft at 1000 lbf/in²; the table’s heads seen, the figure recalled',
  how: 'memory',
}
export const brakeFluidStandard: Source = {
  title: 'FMVSS 116 (49 CFR 571.116), S5.1.1 and S5.1.2, as quoted at adelaideoil.com',
  where: 'least boiling points, dry and wet: DOT 3 205 and 140, DOT 4 230 and 155, DOT 5 and 5.1 260 and 180 °C',
  how: 'read',
}
export const brakeEfficiency: Source = {
  title: 'Brake efficiency by the UK inspection, motinfo.gov.uk, m4s03000802',
  where: 'total brake effort over weight × 100',
  how: 'read',
}
export const gradientTable: Source = {
  title: 'Table of sines and tangents: 11° 18.6′, tangent 0.2000, sine 0.1961',
  how: 'memory',
}
