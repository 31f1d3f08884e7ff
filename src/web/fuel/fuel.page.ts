/** The Fuel screen in the words of a browser test. */
import type { Locator, Page } from 'playwright-core'

export const fuelPage = (page: Page) => {
  const station = (id: string): Locator => page.locator(`[data-station="${id}"]`)
  return {
    open: async (address: string): Promise<void> => {
      await page.goto(`${address}#/fuel`)
      await page.getByRole('heading', { name: 'Fuel', exact: true }).waitFor()
    },
    station,
    /** The station's words on the power it feeds. */
    capacity: async (id: string): Promise<string> => (await station(id).locator('.capacity').textContent()) ?? '',
    /** kW that the station feeds now: with something tried, the tried figure. */
    kilowatts: async (id: string): Promise<number> => {
      const text = (await station(id).locator('.capacity b').textContent()) ?? ''
      return Number(/([\d.]+)(?:\s±\s[\d.]+)?\skW/.exec(text)?.[1])
    },
    figure: (id: string, name: string): Locator => station(id).locator(`[data-figure="${name}"]`),
    lever: (label: string | RegExp): Locator => page.getByLabel(label),
    /** Types a reading below the working of a figure and keeps it. */
    measure: async (id: string, name: string, text: string): Promise<void> => {
      const line = station(id).locator(`[data-figure="${name}"]`)
      await line.locator('summary').click()
      await line.getByRole('textbox').fill(text)
      await line.getByRole('button', { name: 'Keep as a reading' }).click()
    },
    notStored: page.getByText('What if: not stored.'),
    store: page.getByRole('button', { name: 'Store this set-up' }),
    back: page.getByRole('button', { name: 'Back to the build as stored' }),
    tankCase: (id: string): Locator => page.locator(`[data-tank="${id}"]`),
    fit: (id: string): Locator => page.locator(`[data-fit="${id}"]`),
    card: page.getByLabel('Read an injector card (injector-card/1)'),
    undo: page.getByRole('button', { name: 'Undo' }),
  }
}
