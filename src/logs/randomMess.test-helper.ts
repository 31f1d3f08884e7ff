/**
 * Logs as untidy as garages make them, put together by chance, with what is true of each: rows, channels, sessions and
 * figures. Shares nothing with the importer.
 */
const PI2 = 2 * Math.PI

export interface Truth {
  readonly bytes: Buffer
  readonly note: string
  readonly samples: number
  /** Seconds; null where the file has no time. */
  readonly first: number | null
  readonly last: number | null
  readonly sessions: readonly number[]
  readonly channels: readonly {
    readonly name: string
    readonly unit: string
    readonly missing: number
    readonly min: number | null
    readonly mean: number | null
    readonly max: number | null
    readonly states?: readonly string[]
  }[]
  /** Lines (from 1) that hold nothing to keep and must be named. */
  readonly aside: readonly number[]
}

const dice = (seed: number) => {
  let state = (seed * 2654435761) >>> 0
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad)
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97)
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32
  }
  return {
    pick: <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!,
    chance: (share: number): boolean => next() < share,
    whole: (from: number, to: number): number => from + Math.floor(next() * (to - from + 1)),
  }
}

type Cell = number | string | null
interface Column {
  name: string
  readonly unit: string
  readonly digits: number
  readonly kind: 'number' | 'states' | 'hex' | 'thousands'
  readonly at: (row: number) => Cell
}

const two = (value: number): string => String(Math.floor(value)).padStart(2, '0')
const clockText = (seconds: number): string =>
  `${two(seconds / 3600) === '24' ? '00' : two((seconds / 3600) % 24)}:${two((seconds / 60) % 60)}:${(Math.round((seconds % 60) * 1000) / 1000).toFixed(3).padStart(6, '0')}`

export function randomMess(seed: number): Truth {
  const { pick, chance, whole } = dice(seed)
  const delimiter = pick([',', ';', '\t', '|', '  '])
  const aligned = delimiter === '  '
  const comma = delimiter !== ',' && chance(0.4)
  const end = pick(['\n', '\r\n', '\r'])
  const encoding = pick(['utf-8', 'utf-8 mark', 'utf-16le', 'utf-16be', 'latin-1'] as const)
  const unitStyle = pick(['row', 'brackets', 'round', 'cells', 'none'] as const)
  const named = chance(0.92)
  const count = whole(60, 200)
  const step = pick([0.01, 0.02, 0.05, 0.1, 0.5])
  const drawn = pick([
    'seconds',
    'milliseconds',
    'minutes',
    'clock',
    'midnight',
    'date and clock',
    'iso',
    'epoch',
    'sample number',
    'none',
  ] as const)
  // Nothing but a name tells minutes from seconds.
  const timeForm = drawn === 'minutes' && !named ? 'seconds' : drawn
  const day = Date.UTC(2024, 4, 17) / 1000
  const wave = (size: number, turns: number, offset: number) => (row: number) =>
    offset + size * Math.sin((PI2 * turns * row) / count)
  const columns: Column[] = [
    { name: 'Engine speed', unit: 'rpm', digits: 0, kind: 'number', at: wave(400, 3, 900) },
    { name: 'Manifold pressure', unit: 'kPa', digits: 1, kind: 'number', at: wave(60, 2, 101) },
    { name: 'Coolant', unit: '°C', digits: 2, kind: 'number', at: wave(20, 1, -2) },
  ]
  const states = chance(0.4)
    ? pick([
        ['OFF', 'ON'],
        ['closed', 'open'],
        ['idle', 'part', 'full'],
      ])
    : undefined
  if (states)
    columns.push({
      name: 'Fan',
      unit: '',
      digits: 0,
      kind: 'states',
      at: (row) => states[Math.floor(row / 9) % states.length]!,
    })
  if (chance(0.3)) columns.push({ name: 'Flags', unit: '', digits: 0, kind: 'hex', at: (row) => (row * 37) % 4096 })
  if (chance(0.3) && !aligned)
    columns.push({ name: 'Air', unit: 'g/s', digits: 1, kind: 'thousands', at: wave(4000, 2, 6000) })
  if (chance(0.3)) columns.push({ name: 'Supply', unit: 'V', digits: 3, kind: 'number', at: wave(1, 5, 13) })
  if (chance(0.25) && named) columns.push({ ...columns[1]!, at: wave(30, 4, 90) })
  const slow = chance(0.4) && !aligned ? whole(2, 5) : 0
  const sentinel = chance(0.25) ? pick([-9999, 65535, -999]) : undefined
  const gapAt = chance(0.3) ? whole(20, count - 20) : -1
  const strayAt = chance(0.25) && gapAt < 0 && timeForm === 'seconds' ? whole(20, count - 20) : -1
  const restartAt =
    chance(0.25) && strayAt < 0 && gapAt < 0 && ['seconds', 'milliseconds', 'minutes'].includes(timeForm)
      ? whole(20, count - 20)
      : -1
  const headAgain = chance(0.2) && named && restartAt < 0 && strayAt < 0 && gapAt < 0 ? whole(20, count - 20) : -1
  const quoted = chance(0.15) && !aligned
  const unclosed = chance(0.15) && !aligned && !quoted && states ? whole(10, count - 10) : -1
  const soil = new Map<number, string>()
  if (chance(0.4)) soil.set(whole(8, count - 8), 'short')
  if (chance(0.4) && !aligned) soil.set(whole(8, count - 8), 'long')
  if (chance(0.3)) soil.set(whole(8, count - 8), 'rubbish')
  if (chance(0.3)) soil.set(whole(8, count - 8), 'NUL')
  if (chance(0.3)) soil.set(whole(8, count - 8), 'empty line')
  const footer = chance(0.3)
  const cut = !footer && chance(0.25)
  const trailing = chance(0.15) && !aligned

  /** Seconds of a row, before a restart. */
  const offsets = {
    clock: 36000,
    midnight: 86400 - (count / 2) * step,
    'date and clock': 72000,
    iso: day + 3600,
    epoch: day,
  }
  const start = timeForm in offsets ? offsets[timeForm as keyof typeof offsets] : 0
  const base = timeForm === 'date and clock' ? day : 0
  const seconds = (row: number): number =>
    Math.round(
      (start +
        (row - (restartAt >= 0 && row >= restartAt ? restartAt : 0)) * step +
        (gapAt >= 0 && row >= gapAt ? 40 * step : 0)) *
        1e4,
    ) / 1e4
  const sign = (text: string): string => (comma ? text.replace('.', ',') : text)
  const timeCells = (row: number): string[] => {
    const t = row === strayAt ? 88888 : seconds(row)
    switch (timeForm) {
      case 'seconds':
        return [sign(t.toFixed(3))]
      case 'milliseconds':
        return [String(Math.round(t * 1000))]
      case 'minutes':
        return [sign((t / 60).toFixed(12))]
      case 'clock':
      case 'midnight':
        return [clockText(t % 86400)]
      case 'date and clock':
        return ['17.05.2024', clockText(t)]
      case 'iso':
        return [new Date(Math.round(t * 1000)).toISOString()]
      case 'epoch':
        return [sign(t.toFixed(3))]
      case 'sample number':
        return [String(row)]
      case 'none':
        return []
    }
  }
  const timeHead: readonly (readonly [string, string])[] = {
    seconds: [['Time', 's']],
    milliseconds: [['Time', 'ms']],
    minutes: [['Time', 'min']],
    clock: [['Time', '']],
    midnight: [['Time', '']],
    'date and clock': [
      ['Date', ''],
      ['Time', ''],
    ],
    iso: [['Timestamp', '']],
    epoch: [['Time', '']],
    'sample number': [['Sample', '']],
    none: [],
  }[timeForm] as [string, string][]
  const head = [...timeHead, ...columns.map(({ name, unit }) => [name, unit] as const)]
  const spaced = (text: string): string => (aligned ? text.replaceAll(' ', '_') : text)
  const headCells = head.map(([name, unit]) => {
    const plain = spaced(name)
    if (unit === '' || unitStyle === 'row' || unitStyle === 'none') return plain
    // Under aligned blanks a unit stands close behind its name; a time without a unit would be another file.
    const gap = aligned ? '' : ' '
    return unitStyle === 'round' ? `${plain}${gap}(${unit})` : `${plain}${gap}[${unit}]`
  })
  // A time in anything but seconds must say so somewhere.
  if (unitStyle === 'none' && named)
    timeHead.forEach(([name, unit], i) => {
      headCells[i] = unit === '' || unit === 's' ? spaced(name) : `${spaced(name)}${aligned ? '' : ' '}[${unit}]`
    })
  const unitsTold = named && unitStyle !== 'none'
  const inCells = unitStyle === 'cells' && !aligned

  const figure = (column: Column, value: Cell): string => {
    if (value === null) return ''
    if (typeof value === 'string') return value
    if (column.kind === 'hex') return `0x${value.toString(16).toUpperCase().padStart(3, '0')}`
    const text = value.toFixed(column.digits)
    if (column.kind === 'thousands') {
      const [integer, fraction] = text.split('.')
      const group = comma ? '.' : delimiter === ',' ? ' ' : ','
      return `${integer!.replace(/(\d)(?=(\d{3})+$)/g, `$1${group}`)}${comma ? ',' : '.'}${fraction}`
    }
    return sign(text) + (inCells && column.unit !== '' ? ` ${column.unit}` : '')
  }
  const kept: { t: number; cells: Cell[] }[] = []
  const aside: number[] = []
  const out: string[] = []
  const put = (text: string): void => {
    out.push(text + end)
  }
  const join = (cells: readonly string[]): string =>
    cells.map((cell) => (quoted && cell !== '' ? `"${cell}"` : cell)).join(aligned ? '   ' : delimiter) +
    (trailing ? delimiter : '')
  if (chance(0.5)) {
    put('Logger of the workshop, file 12')
    if (chance(0.5)) put('')
    put(`Remark${delimiter === ',' || aligned ? ': ' : delimiter}second run`)
  }
  if (timeForm === 'sample number' || (timeForm === 'none' && chance(0.5))) put(`Sample rate: ${1 / step} Hz`)
  const rated = out.some((line) => line.startsWith('Sample rate'))
  const widths = head.map(() => 14)
  const layout = (cells: readonly string[]): string =>
    aligned
      ? cells
          .map((cell, i) => cell.padStart(widths[i]!))
          .join('  ')
          .trimEnd()
      : join(cells)
  if (named) {
    put(layout(headCells))
    if (unitStyle === 'row') put(layout(head.map(([, unit]) => (unit === '' ? '-' : unit))))
  }
  for (let row = 0; row < count; row++) {
    if (row === headAgain) put(layout(headCells))
    const spoiled = soil.get(row)
    const cells = columns.map((column, i): Cell => {
      if (slow > 0 && i === 2 && row % slow !== 0) return null
      if (sentinel !== undefined && i === 1 && row % 17 === 16) return sentinel
      const value = column.at(row)
      return typeof value === 'number' ? Number(value.toFixed(column.digits)) : value
    })
    const texts = [
      ...timeCells(row),
      ...cells.map((cell, i) => (cell === sentinel && i === 1 ? String(cell) : figure(columns[i]!, cell))),
    ]
    if (row === unclosed) {
      const at = texts.length - columns.length + columns.findIndex(({ kind }) => kind === 'states')
      texts[at] = `"${texts[at]}`
    }
    if (spoiled === 'short') {
      aside.push(out.length + 1)
      put(layout(texts.slice(0, -2)))
      continue
    }
    if (spoiled === 'long') {
      aside.push(out.length + 1)
      put(layout([...texts, '17', '4']))
      continue
    }
    if (spoiled === 'rubbish') {
      aside.push(out.length + 1)
      put('~~ #!% link lost <<')
    }
    if (spoiled === 'NUL') {
      aside.push(out.length + 1)
      put('\0'.repeat(whole(3, 40)))
    }
    if (spoiled === 'empty line') put('')
    put(layout(texts))
    kept.push({
      t:
        row === strayAt
          ? Number.NaN
          : base +
            (timeForm === 'sample number' || timeForm === 'none'
              ? (timeForm === 'none' ? kept.length : row) * step
              : seconds(row)),
      cells: cells.map((cell, i) =>
        cell === sentinel && i === 1
          ? null
          : i >= 0 && row === unclosed && columns[i]!.kind === 'states'
            ? (texts[texts.length - columns.length + i] ?? null)
            : cell,
      ),
    })
  }
  if (footer) {
    put('')
    aside.push(out.length + 1)
    put('End of the recording, all is well')
  }
  if (cut) {
    aside.push(out.length + 1)
    out.push(layout([...timeCells(count), '8']).slice(0, 40))
  }
  const text = out.join('')
  const bytes =
    encoding === 'latin-1'
      ? Buffer.from(text, 'latin1')
      : encoding === 'utf-8'
        ? Buffer.from(text)
        : encoding === 'utf-8 mark'
          ? Buffer.from(`\ufeff${text}`)
          : encoding === 'utf-16le'
            ? Buffer.from(`\ufeff${text}`, 'utf16le')
            : Buffer.from(`\ufeff${text}`, 'utf16le').swap16()
  const timed = timeForm !== 'none' || rated
  const times = kept.map(({ t }) => t).filter((t) => !Number.isNaN(t))
  const splitAt = restartAt >= 0 ? restartAt : headAgain
  const goneBefore = [...soil].filter(([row, what]) => row < splitAt && (what === 'short' || what === 'long')).length
  const names = columns.map(({ name }, i) => {
    const same = columns.slice(0, i).filter((other) => other.name === name).length
    const printed = named ? spaced(name) : `Column ${timeHead.length + i + 1}`
    return same > 0 ? `${printed} (${same + 1})` : printed
  })
  return {
    bytes,
    note: JSON.stringify({
      seed,
      delimiter,
      comma,
      end,
      encoding,
      unitStyle,
      named,
      timeForm,
      step,
      slow,
      sentinel,
      gapAt,
      strayAt,
      restartAt,
      headAgain,
      unclosed,
      soil: [...soil],
      footer,
      cut,
      quoted,
      trailing,
      columns: columns.map(({ name }) => name),
    }),
    samples: kept.length,
    first: timed ? (times[0] ?? null) : null,
    last: timed ? (times.at(-1) ?? null) : null,
    sessions: splitAt >= 0 ? [splitAt - goneBefore, kept.length - splitAt + goneBefore] : [kept.length],
    channels: columns.map((column, i) => {
      const cells = kept.map((row) => row.cells[i]!)
      const name = names[i]!
      const unit = unitsTold || (inCells && column.unit !== '') ? column.unit : ''
      if (column.kind === 'states')
        return {
          name,
          unit,
          missing: cells.filter((cell) => cell === null).length,
          min: null,
          mean: null,
          max: null,
          states: [...new Set(cells.map(String))],
        }
      const numbers = cells.filter((cell) => typeof cell === 'number')
      return {
        name,
        unit: column.kind === 'thousands' && inCells && !named ? '' : unit,
        missing: cells.length - numbers.length,
        min: Math.min(...numbers),
        mean: numbers.reduce((sum, value) => sum + value, 0) / numbers.length,
        max: Math.max(...numbers),
      }
    }),
    aside,
  }
}
