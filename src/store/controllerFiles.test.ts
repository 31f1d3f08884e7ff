/** Files of the controller: kept by hash, never twice, checked on the way out; what differs; the way back. */
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { CONTROLLER_FILES } from '../../demo/controllerFiles.ts'
import { ledgerOf } from '../assess/ledger/ledger.ts'
import { addControllerFile, backToFile, controllerFile, controllerFileDiffers } from './controllerFiles.ts'
import { fileDifference } from './fileDifference.ts'
import { openBuild, type Store } from './store.ts'

let folder: string
let store: Store
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'swapwright-files-'))
  store = openBuild(join(folder, 'build'), { create: 'Test' })
})
afterAll(() => {
  store.close()
  rmSync(folder, { recursive: true, force: true })
})
let minute = 0
const said = (says: string, by = 'the builder') => ({
  name: 'base.map',
  says,
  by,
  when: new Date(Date.UTC(2026, 1, 1, 9, minute++)).toISOString(),
})
const file = (content: string | Buffer): string => {
  const place = join(folder, `in-${minute}`)
  writeFileSync(place, content)
  return place
}

describe('the files of the controller', () => {
  it('are kept by the hash of their content, with what differs and the way back', () => {
    // FIPS 180-4 / NIST example: SHA-256 of “abc”.
    const first = addControllerFile(store, file('abc'), said('As it came'))
    expect(first.file?.sha256).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
    const second = addControllerFile(store, file('abd\nidle 900'), said('Idle up'))
    expect(second.file).toMatchObject({
      before: first.id,
      differs: { bytes: 10, lines: { added: 2, taken: 1 } },
    })
    expect(() => addControllerFile(store, file('abd\nidle 900'), said('Again'))).toThrow(/byte for byte/)
    expect(() => addControllerFile(store, file('x'), said('Nobody', ' '))).toThrow(/Nobody’s name/)
    const back = backToFile(store, first.id, said(''))
    expect(back).toMatchObject({
      title: 'Back to: As it came',
      file: { before: second.id, sha256: first.file!.sha256 },
    })
    expect(readdirSync(join(folder, 'build', 'files'))).toHaveLength(2)
    expect(controllerFile(store, back.id).bytes.toString()).toBe('abc')
    const [newest] = ledgerOf(store.read())
    expect(newest).toMatchObject({ current: true, back: { id: second.id } })
    expect(newest!.lacks).toEqual(['the injector card, table or log that it belongs to'])
    // One undo takes the entry away; the kept file stays for a redo.
    store.undo()
    expect(ledgerOf(store.read())[0]!.change.id).toBe(second.id)
    expect(controllerFileDiffers(store, second.id).changes).toEqual([
      { sign: '-', line: 1, text: 'abc' },
      { sign: '+', line: 1, text: 'abd' },
      { sign: '+', line: 2, text: 'idle 900' },
    ])
  })

  it('are not given out once they are no longer what was kept', () => {
    const record = addControllerFile(store, file('of use'), said('Boost down'))
    writeFileSync(join(folder, 'build', 'files', record.file!.sha256), 'of uSe')
    expect(() => controllerFile(store, record.id)).toThrow(/no longer what was kept/)
    rmSync(join(folder, 'build', 'files', record.file!.sha256))
    expect(() => controllerFile(store, record.id)).toThrow(/not in the build’s folder/)
  })
})

describe('what differs', () => {
  const lines = (text: string): string => [...text].join('\n')
  const of = (a: string, b: string) => fileDifference(Buffer.from(a), Buffer.from(b))
  it('is the shortest edit script', () => {
    // Myers 1986, the worked example: ABCABBA to CBABAC takes five edits.
    const found = of(lines('ABCABBA'), lines('CBABAC'))
    expect(found.changes).toHaveLength(5)
    expect(found.lines).toEqual({ added: 2, taken: 3 })
  })
  it('of equal files is nothing, and turned round adds what it took', () => {
    expect(of('a\nb', 'a\nb')).toMatchObject({ bytes: 0, lines: { added: 0, taken: 0 } })
    const [there, here] = [of('a\nb\nc', 'a\nx\ny\nc'), of('a\nx\ny\nc', 'a\nb\nc')]
    expect(there.lines).toEqual({ added: 2, taken: 1 })
    expect(here.lines).toEqual({ added: 1, taken: 2 })
  })
  it('of the demo’s two files is what their record says', () => {
    const [first, second] = CONTROLLER_FILES.map(({ text }) => text)
    const { bytes, lines } = of(first!, second!)
    expect({ bytes, lines }).toEqual(CONTROLLER_FILES[1]!.record.file!.differs)
  })
  it('of other files is told by bytes and where they lie', () => {
    const a = Buffer.alloc(1000)
    const b = Buffer.from(a)
    b.writeUInt32LE(0xdeadbeef, 100)
    b[900] = 1
    expect(fileDifference(a, b)).toEqual({
      bytes: 5,
      runs: [
        { at: 100, length: 4 },
        { at: 900, length: 1 },
      ],
    })
    expect(fileDifference(a, a.subarray(0, 990)).bytes).toBe(10)
  })
  it('of text rewritten from end to end is counted', () => {
    const many = (word: string): string => Array.from({ length: 3000 }, (_, i) => `${word} ${i}`).join('\n')
    const found = of(many('a'), many('b'))
    expect(found.changes).toBeUndefined()
    expect(found.lines).toEqual({ added: 3000, taken: 3000 })
  })
})
