/** The breakdown card: one sheet for the glovebox, for whoever stands beside the car in the rain and has never seen it. */
import { ledgerOf } from '../../assess/ledger/ledger.ts'
import { deviceZone, own } from '../../assess/make.ts'
import type { Build, Device } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { fuseChart } from '../loom/fuseChart.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import { RECORD_STYLE } from './style.ts'

export interface Card {
  readonly title: string
  readonly sections: readonly { readonly title: string; readonly lines: readonly string[] }[]
  readonly fuses: readonly {
    readonly name: string
    readonly rating: string
    readonly feeds: string
    readonly where: string
  }[]
  /** What would stand on it and is not entered. */
  readonly lacks: readonly string[]
}

/** Common practice, no published source. */
const FIRST = [
  'Everybody out and behind the barrier; hazard lamps, triangle; nobody under the car at the roadside.',
  'Smell of petrol: key off, battery off, walk away, no sparks. Fire: bonnet stays shut, extinguisher through the gap.',
  'Never open a hot cooling system. Fans may start by themselves, the key out or not.',
  'Airbag and anti-lock wiring is for somebody qualified. Do not fit a larger fuse than stands here.',
]

const placeOf = (build: Build, device: Device): string =>
  own(build.collections.zones, deviceZone(build, device.id) ?? '')?.name ?? 'place not entered'

export const breakdownCard = (build: Build): Card => {
  const lacks: string[] = []
  const all = Object.values(build.collections.devices).filter(({ restricted }) => restricted === undefined)
  const where = (what: string, found: readonly Device[]): string[] => {
    if (found.length === 0) lacks.push(what)
    return found.map((device) => `${device.name}: ${placeOf(build, device)}.`)
  }
  const called = (pattern: RegExp): Device[] => all.filter(({ id, name }) => pattern.test(`${id} ${name}`))
  const known = (says: string, what: string, figure: string | undefined): string[] => {
    if (figure === undefined) lacks.push(what)
    return figure === undefined ? [] : [`${says} ${figure}.`]
  }
  const { oil, cooling, fuel, engine, vehicle } = build.sheets
  const [newest] = ledgerOf(build)
  const chart = fuseChart(build)
  lacks.push(...(chart.empty === undefined ? chart.missing : ['fuses']))
  return {
    title: vehicle?.name ?? build.name,
    sections: [
      { title: 'First', lines: FIRST },
      {
        title: 'Where things are',
        lines: [
          ...where(
            'the battery',
            all.filter(({ spec }) => spec.kind === 'battery'),
          ),
          ...where('the crash cut-out of the pump', called(/cut-?out|crash|inertia/i)),
          ...where(
            'the fuel pump',
            all.filter(({ id }) => id === fuel?.pump?.device),
          ),
          ...where(
            'the engine controller',
            all.filter(({ spec }) => spec.kind === 'controller'),
          ),
          ...where('the diagnostic socket', called(/diagnos/i)),
        ],
      },
      {
        title: 'What is in it',
        lines: [
          ...known('Engine:', 'the engine', engine?.name),
          ...known('Fuel:', 'the fuel', fuel?.fuel),
          ...known(
            'Oil:',
            'how much oil it takes',
            oil?.capacity && formatQuantity('volume', oil.capacity.value, { unit: oil.capacity.unit ?? 'l' }),
          ),
          ...known(
            'Coolant:',
            'how much coolant it takes',
            cooling?.coolantVolume &&
              formatQuantity('volume', cooling.coolantVolume.value, { unit: cooling.coolantVolume.unit ?? 'l' }),
          ),
          ...known(
            'Cap opens at',
            'pressure of the coolant cap',
            cooling?.capPressure &&
              formatQuantity('pressureGauge', cooling.capPressure.value, { unit: cooling.capPressure.unit ?? 'bar' }),
          ),
          ...known(
            'File in the controller:',
            'the controller’s file',
            newest && `${newest.change.file.name}, SHA-256 ${newest.change.file.sha256.slice(0, 16)}…`,
          ),
        ],
      },
      {
        title: 'By hand',
        lines: [
          'Owner and telephone: ______________________',
          'Recovery: ______________________',
          'Insurer and number: ______________________',
          'Tyres, bar: front ______ rear ______',
        ],
      },
    ],
    fuses: (chart.tables[0]?.rows ?? []).map(([name, rating, , feeds, , place]) => ({
      name: String(name),
      rating: rating === undefined ? 'not entered' : `${rating} A`,
      feeds: String(feeds ?? ''),
      where: String(place ?? ''),
    })),
    lacks,
  }
}

/** `printed`: the day that stands on it. */
export const cardPage = (build: Build, printed: string): string => {
  const { title, sections, fuses, lacks } = breakdownCard(build)
  return htmlPage(
    `${title}: breakdown card`,
    RECORD_STYLE,
    `<h1>${escapeHtml(title)}: breakdown card</h1><p class="small">Printed ${escapeHtml(printed)}.</p>
${sections
  .map(
    (section) =>
      `<section><h2>${escapeHtml(section.title)}</h2><ul>${section.lines.map((line) => `<li>${escapeHtml(line)}</li>`).join('')}</ul></section>`,
  )
  .join('\n')}
<section><h2>Fuses</h2>${
      fuses.length === 0
        ? '<p>No fuse is entered.</p>'
        : `<table><thead><tr><th>Fuse</th><th>Rating</th><th>Feeds</th><th>Where</th></tr></thead><tbody>${fuses
            .map(
              ({ name, rating, feeds, where }) =>
                `<tr><td>${escapeHtml(name)}</td><td>${escapeHtml(rating)}</td><td>${escapeHtml(feeds)}</td><td>${escapeHtml(where)}</td></tr>`,
            )
            .join('')}</tbody></table>`
    }</section>
${lacks.length === 0 ? '' : `<p class="small"><em>Not entered: ${escapeHtml(lacks.join('; '))}.</em></p>`}`,
  )
}
