// The loom's lists and board as files and on the terminal, read back.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { loomList } from '../src/book/loom/lists.ts'
import { runCommand } from '../src/cli/run.ts'
import { openBuild } from '../src/store/store.ts'
import { readTable } from '../src/store/wireList/table.ts'

const demo = demoBuild()

describe('swapwright loom', () => {
  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'loom-'))
    const store = openBuild(join(folder, 'build'), { create: demo.name })
    store.replace(demo, 'Demo')
    store.close()
  })
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  const swapwright = async (...args: string[]) => {
    let text = ''
    const take = (more: string): void => {
      text += more
    }
    const status = await runCommand([...args, '--build', join(folder, 'build')], { write: take, error: take })
    return { status, text }
  }

  it('CSV and XLSX come back as they were written', async () => {
    for (const file of ['cut.csv', 'cut.xlsx']) {
      const path = join(folder, file)
      expect((await swapwright('loom', 'cut', '--out', path)).status).toBe(0)
      const [head, ...rows] = await readTable(path)
      expect(head!.cells.slice(0, 5)).toEqual(['Wire', 'Size', 'Colour', 'Class', 'Cut, m'])
      const list = loomList(demo, 'cut').tables[0]!.rows
      expect(rows.length).toBe(list.length)
      rows.forEach(({ cells }, index) => {
        expect(cells[0]).toBe(list[index]![0])
        expect(Number(cells[4])).toBeCloseTo(Number(list[index]![4]), 2)
      })
    }
  })
  it('the command prints lists, writes the board, and refuses in words', async () => {
    const runs = await swapwright('loom')
    expect(runs.text).toMatch(/R-8 +Bulkhead, left +Dash, left +Bulkhead +0\.35 +57/)
    const board = await swapwright('loom', 'board', '--paper', 'A3', '--out', join(folder, 'board.html'))
    expect(board.text).toContain('sheets of A3')
    expect(readFileSync(join(folder, 'board.html'), 'utf8')).toContain('@page { size: 420mm 297mm; margin: 0; }')
    expect(JSON.parse((await swapwright('loom', 'fuses', '--json')).text).id).toBe('fuses')
    for (const [args, says] of [
      [['loom', 'nothing'], 'The loom has no list “nothing”.'],
      [['loom', 'board', '--paper', 'A9'], 'The board is not made for A9.'],
      [['loom', 'board', '--zone', 'moon'], 'The build has no zone “moon”.'],
      [['loom', 'cut', '--out', 'cut.pdf'], 'End it in .csv, .xlsx or .html.'],
    ] as const) {
      const { status, text } = await swapwright(...args)
      expect(status).toBe(4)
      expect(text).toContain(says)
    }
  })
})
