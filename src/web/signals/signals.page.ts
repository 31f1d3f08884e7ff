/** The Signals screen in the words of a browser test. */
import type { Locator, Page } from 'playwright-core'

export const signalsPage = (page: Page) => ({
  open: async (address: string, place = ''): Promise<void> => {
    await page.goto(`${address}#/signals${place}`)
    await page.locator('main h1').first().waitFor()
  },
  row: (pin: string): Locator => page.locator(`[data-pin="${pin}"]`),
  rows: page.locator('[data-pin]'),
  show: (asked: string) => page.locator('.signal-filter select').selectOption(asked),
  words: page.getByLabel('With the words'),
  band: (name: string): Locator => page.locator(`[data-band="${name}"]`),
  choose: page.getByRole('button', { name: 'Choose', exact: true }),
  proof: page.locator('.proof'),
  parts: page.locator('.solder table'),
  store: page.getByRole('button', { name: 'Store these resistors' }),
  addToCircuits: page.getByRole('button', { name: 'Add it to the circuits' }),
  answer: page.locator('p.answer'),
  undo: page.getByRole('button', { name: 'Undo' }),
})
