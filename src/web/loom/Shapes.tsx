/** A drawing kept as data, drawn: the same shapes that the command writes to a file. */
import { createElement, type ReactElement } from 'react'
import type { Shape } from '../../book/loom/shape.ts'

/** React writes `stroke-width` as `strokeWidth`; `data-` and `aria-` stay. */
const reactName = (name: string): string =>
  /^(data|aria)-/.test(name) ? name : name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())

export const drawn = ({ tag, attributes, inside }: Shape): ReactElement =>
  createElement(
    tag,
    Object.fromEntries(Object.entries(attributes).map(([name, value]) => [reactName(name), value])),
    ...inside.map((each) => (typeof each === 'string' ? each : drawn(each))),
  )
