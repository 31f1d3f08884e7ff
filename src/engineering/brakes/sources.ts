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
