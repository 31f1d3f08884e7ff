/** A bench of a chain of stations in the words of a browser test. */
import type { Page } from 'playwright-core'

export const chainPage = (page: Page) => {
  const figure = (id: string) => page.locator(`[data-figure="${id}"]`)
  return {
    open: async (address: string, bench: 'air' | 'cooling' | 'brakes' | 'driveline' | 'services'): Promise<void> => {
      await page.goto(`${address}#/${bench}`)
      await page.locator('.stops').waitFor()
    },
    drawing: page.locator('.line-drawing:visible').first(),
    stations: page.locator('.stop'),
    figure,
    /** As it reads, working included once opened. */
    figureText: async (id: string): Promise<string> => (await figure(id).textContent()) ?? '',
    openWorking: (id: string) => figure(id).locator('summary').click(),
    tryOut: (label: string, text: string) => page.getByLabel(label, { exact: true }).fill(text),
    without: (reading: string) => page.getByLabel(new RegExp(`without reading ${reading} `)).check(),
    notStored: page.getByText('What if: not stored.'),
    store: page.getByRole('button', { name: 'Store this set-up' }),
    back: page.getByRole('button', { name: 'Back to the build as stored' }),
  }
}
