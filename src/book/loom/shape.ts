/** A drawing as data: a page of the workbench and a file of the command make the same of it. */
import { escapeHtml } from '../page.ts'

export interface Shape {
  readonly tag: string
  /** Presentation attributes of SVG, by their own names. */
  readonly attributes: Readonly<Record<string, string | number>>
  readonly inside: readonly (Shape | string)[]
}

export const shape = (tag: string, attributes: Shape['attributes'], ...inside: readonly (Shape | string)[]): Shape => ({
  tag,
  attributes,
  inside,
})

export const shapeAsText = ({ tag, attributes, inside }: Shape): string =>
  `<${tag}${Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escapeHtml(String(value))}"`)
    .join(
      '',
    )}>${inside.map((each) => (typeof each === 'string' ? escapeHtml(each) : shapeAsText(each))).join('')}</${tag}>`
