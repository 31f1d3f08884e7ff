/** What every screen is held to, and what the store holds behind it. */
import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { overflow, smallText } from './browser.ts'

/** Nothing beyond the window's side, no text under 12 px, nothing that axe-core objects to. */
export const looksRight = async (page: Page): Promise<void> => {
  // A place just gone to may still be on its way: let the page turn, then wait for its heading.
  await page.evaluate(() => new Promise((turned) => requestAnimationFrame(() => setTimeout(turned, 50))))
  await page.locator('main h1').first().waitFor()
  expect(await overflow(page)).toBeLessThanOrEqual(0)
  expect(await smallText(page)).toEqual([])
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([])
}

/** The build as the server has it, with the number of its newest edit. */
export const stored = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const { build, seq } = await (await fetch('/api/build')).json()
    return JSON.stringify([seq, build])
  })
