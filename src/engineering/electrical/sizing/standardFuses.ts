/**
 * Rated currents, A, that each family of vehicle fuse is made in. ISO 8820-3 types C and E, ISO 8820-5 [from memory];
 * blade colours of the same ratings read in a maker's chart (0.5 … 40 A).
 */
import type { FuseType } from '../fuseGates.ts'

export const STANDARD_FUSES: Readonly<Record<FuseType, readonly number[]>> = {
  // The gates of fuseGates.ts hold from 3 A up, so smaller blades are not offered.
  blade: [3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40],
  maxi: [20, 25, 30, 35, 40, 50, 60, 70, 80, 100],
  'bolt-down': [30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500],
}
