/** The Circuits screen in the words of a browser test. */
import type { Locator, Page } from 'playwright-core'

export const circuitsPage = (page: Page) => {
  const part = (id: string): Locator => page.locator(`[data-part="${id}"]`)
  return {
    drawing: page.locator('.drawing-room svg'),
    open: async (address: string, circuit: string): Promise<void> => {
      await page.goto(`${address}#/circuits/${circuit}`)
      await page.locator('.drawing-room svg').waitFor()
    },
    part,
    wire: (id: string): Locator => page.locator(`[data-wire="${id}"]`),
    /** The volts beside the pins of a part, in V, in the order drawn; those unknown or floating left out. */
    volts: async (id: string): Promise<readonly number[]> =>
      (await part(id).locator('text.tag').allTextContents()).flatMap((text) => {
        const found = /^(−?)([\d.]+)\s(m?)V$/.exec(text)
        return found ? [(found[1] ? -1 : 1) * Number(found[2]) * (found[3] ? 1e-3 : 1)] : []
      }),
    chooseCase: (name: string) => page.getByLabel('Operating case').selectOption({ label: name }),
    flip: (id: string) => part(id).click(),
    /** The button of a controller's output; its name may say more than the start of it given here. */
    output: (name: string): Locator => page.getByRole('button', { name: new RegExp(`^${name}.* on$`) }).first(),
    notStored: page.getByText('What if: not stored.'),
    back: page.getByRole('button', { name: 'Back to the case as stored' }),
    keep: page.getByRole('button', { name: 'Keep as a new case' }),
    cell: (word: string, wire: string): Locator => page.getByLabel(`${word} of wire ${wire}`, { exact: true }),
    /** As a spreadsheet puts it on the clipboard. */
    paste: (cell: Locator, text: string): Promise<void> =>
      cell.evaluate((element, block) => {
        const clipboardData = new DataTransfer()
        clipboardData.setData('text/plain', block)
        element.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
      }, text),
    undo: page.getByRole('button', { name: 'Undo' }),
  }
}
