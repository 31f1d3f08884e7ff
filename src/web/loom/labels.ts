/** Where words go on the drawing: the first of their possible places that covers least of what is there already. */

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}
export interface Wanted {
  readonly id: string
  readonly width: number
  /** Top left corners, the best first. */
  readonly places: readonly (readonly [number, number])[]
}
type Line = readonly [readonly [number, number], readonly [number, number], number]

const shared = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y))

/** Length of the line within the box, by points along it: a ruler for the drawing. */
const crossing = (box: Box, [[x1, y1], [x2, y2], thick]: Line): number => {
  const long = Math.hypot(x2 - x1, y2 - y1)
  const steps = Math.max(2, Math.ceil(long / 4))
  let inside = 0
  for (let step = 0; step <= steps; step += 1) {
    const [x, y] = [x1 + ((x2 - x1) * step) / steps, y1 + ((y2 - y1) * step) / steps]
    if (
      x > box.x - thick / 2 &&
      x < box.x + box.width + thick / 2 &&
      y > box.y - thick / 2 &&
      y < box.y + box.height + thick / 2
    )
      inside += long / steps
  }
  return inside
}

/** In the order asked for; each gets one of its places that lies within `room`. */
export const placeLabels = (
  wanted: readonly Wanted[],
  height: number,
  lines: readonly Line[],
  room: readonly [number, number],
): ReadonlyMap<string, Box> => {
  const placed = new Map<string, Box>()
  for (const { id, width, places } of wanted) {
    let best: Box | undefined
    let least = Number.POSITIVE_INFINITY
    places.forEach(([left, top], index) => {
      const box = {
        x: Math.min(Math.max(0, left), Math.max(0, room[0] - width)),
        y: Math.min(Math.max(0, top), Math.max(0, room[1] - height)),
        width,
        height,
      }
      let cost = index * 2
      for (const other of placed.values()) cost += shared(box, other) * 2
      for (const line of lines) cost += crossing(box, line) * 20
      if (cost < least) {
        least = cost
        best = box
      }
    })
    if (best) placed.set(id, best)
  }
  return placed
}
