/** Sources and tables that the calculations of fixings share. */
import type { Source } from '../calculation.ts'

export const iso898: Source = {
  title: 'ISO 898-1, nominal stress area and proof loads, as tabled by optimas.com',
  where: 'coarse threads M3 to M39, proof load N: M8 21 200, M12 48 900, M20 147 000 of class 8.8',
  how: 'read',
}
export const stressAreas: Source = {
  title: 'Metric thread stress areas, engineersedge.com, after Bickford, Bolted Joints',
  where: 'mm²: M6 20.123, M8 36.609, M10 57.990, M16 156.67',
  how: 'read',
}
export const iso724: Source = {
  title: 'ISO 724: pitch diameter d − 0.649519·P; ISO 68-1: triangle H = 0.866025·P',
  how: 'memory',
}
export const nutFactor: Source = {
  title: 'Short-form torque and tension T = K·F·d, engitoolbox.org, bolt torque',
  where: 'M10 of class 8.8, 50 N·m, K 0.20: 25 kN, 431 MPa',
  how: 'read',
}
export const nutFactors: Source = {
  title: 'Nut factors by finish, monsterbolts.com, bolt preload basics',
  where:
    'dry 0.20 to 0.25, zinc with light oil 0.18 to 0.22, black oxide and oil 0.15 to 0.18, stainless with paste 0.14 to 0.18, wax or PTFE 0.10 to 0.14',
  how: 'read',
}
export const boltTorqueExample: Source = {
  title: 'Bolt torque worked example, aionlinecalculator.com: M12 of class 8.8 to 70 % of proof, K 0.2',
  where: 'stress area 84.3 mm², proof stress 580 MPa: about 34 kN and 82 N·m',
  how: 'read',
}
export const iso273: Source = {
  title: 'ISO 273, clearance holes for bolts and screws, as tabled by engineeringhardware.com and nbk1560.com',
  where: 'M4 4.3, 4.5, 4.8; M6 6.4, 6.6, 7; M8 8.4, 9, 10 mm',
  how: 'read',
}
export const flareThreads: Source = {
  title: '37° flare sizes (SAE J514, ISO 8434-2), gageref.com hydraulic fitting thread chart',
  where: '-4 7/16-20, -6 9/16-18, -8 3/4-16, -10 7/8-14, -12 1 1/16-12, -16 1 5/16-12',
  how: 'read',
}
export const flareTorques: Source = {
  title: 'TM 55-1520-240-23-1, paragraph 1-13, torque of hose and tube coupling nuts',
  where: 'inch-pounds by dash, columns C, D, E: nuts on aluminium tube, on steel tube, on hose; threads lubricated',
  how: 'read',
}
