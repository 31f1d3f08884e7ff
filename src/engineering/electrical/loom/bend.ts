/**
 * Least radius, on the inside, that a bundle may be bent to: ten times the outer diameter of its largest wire, three
 * times where it is held on both sides of the bend (break-outs, terminal strips).
 */
import type { Source } from '../../calculation.ts'

export const bendSource: Source = {
  title: 'SAE AS50881: ten times the wire’s diameter, three times where fully supported; as told on IPC’s TechNet list',
  where: 'listserv.ipc.org, TechNet, August 2016',
  how: 'read',
}
const FREE = 10
const HELD = 3

/** `largest`: m, outer diameter of the largest wire in the bundle. */
export const leastBend = (largest: number): { readonly free: number; readonly held: number } => ({
  free: FREE * largest,
  held: HELD * largest,
})
