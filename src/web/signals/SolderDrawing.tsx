/**
 * What to solder: the switch as a circuit by IEC 60617, a row a button, the controller's wire on the left and the return on the
 * right; below it the parts with their colour bands and the heat they must bear.
 */
import type { SwitchRecord, SwitchSheet } from '../../assess/signals/switches.ts'
import { colourBands } from '../../engineering/signals/colourCode.ts'
import { showPreferred } from '../parts/units.ts'

const WIDTH = 350
const LEFT = 26
const RIGHT = 324
const TOP = 78
const ROW = 52

const ohms = (resistance: number): string => showPreferred('resistance', resistance)

/** A resistor lying between two points of one height, its value above it. */
function Lying({ x, y, value }: { x: number; y: number; value: string }) {
  return (
    <>
      <rect x={x} y={y - 7} width="52" height="14" className="part" />
      <text x={x + 26} y={y - 13} textAnchor="middle">
        {value}
      </text>
    </>
  )
}

/** A contact that closes while it is pressed. */
function Contact({ x, y, name }: { x: number; y: number; name: string }) {
  return (
    <>
      <line x1={x} x2={x + 34} y1={y} y2={y - 13} className="wire" />
      <path d={`M${x + 18} ${y - 9}V${y - 20}M${x + 10} ${y - 20}H${x + 26}`} className="wire" strokeDasharray="3 2" />
      <text x={x + 18} y={y - 25} textAnchor="middle" className="name">
        {name.length > 20 ? `${name.slice(0, 19)}…` : name}
      </text>
    </>
  )
}

const spoken = (record: SwitchRecord): string =>
  record.topology === 'chain'
    ? `One string from the wire on: ${record.buttons.map(({ name, resistance }) => `${ohms(resistance.value)}, tap of ${name}`).join(', ')}${record.idle ? `, ${ohms(record.idle.resistance.value)} to the return` : ''}`
    : `From the wire to the return, side by side: ${record.buttons.map(({ name, resistance }) => `${ohms(resistance.value)} with ${name}`).join(', ')}${record.idle ? `, ${ohms(record.idle.resistance.value)} without a contact` : ''}`

function Drawing({ sheet }: { sheet: SwitchSheet }) {
  const { record, circuit, input } = sheet
  const chain = record.topology === 'chain'
  const rows = record.buttons.length + (record.idle ? 1 : 0)
  const y = (row: number): number => TOP + 46 + row * ROW
  const pullUp = circuit && (circuit.pullUp.low + circuit.pullUp.high) / 2
  const height = y(rows - 1) + 22
  return (
    <svg viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={`How it is soldered. ${spoken(record)}.`}>
      <path d={`M${LEFT} 14V22M${LEFT} 56V${TOP + 4}`} className="wire" />
      <path d={`M${LEFT - 8} 14H${LEFT + 8}`} className="wire" />
      <rect x={LEFT - 7} y="22" width="14" height="34" className={record.pullUp ? 'part' : 'part inside'} />
      <text x={LEFT + 16} y="19">
        {circuit ? `${((circuit.supply.low + circuit.supply.high) / 2).toPrecision(2)} V` : 'supply'}
      </text>
      <text x={LEFT + 16} y="44">
        pull-up {pullUp === undefined ? 'not known' : ohms(pullUp)}, {record.pullUp ? 'to solder' : 'in the controller'}
      </text>
      <circle cx={LEFT} cy={TOP - 6} r="3" className="node" />
      <text x={LEFT + 16} y={TOP - 2} className="name">
        {input ? `to pin ${input.pin}` : 'to the controller’s input'}
      </text>
      {chain ? (
        record.buttons.map(({ name, resistance }, row) => {
          const from = row === 0 ? TOP + 4 : y(row - 1)
          const middle = (from + y(row)) / 2
          return (
            <g key={name}>
              <path d={`M${LEFT} ${from}V${middle - 13}M${LEFT} ${middle + 13}V${y(row)}`} className="wire" />
              <rect x={LEFT - 7} y={middle - 13} width="14" height="26" className="part" />
              <text x={LEFT + 16} y={middle + 5}>
                {ohms(resistance.value)}
              </text>
              <circle cx={LEFT} cy={y(row)} r="3" className="node" />
              <path d={`M${LEFT} ${y(row)}H190M228 ${y(row)}H${RIGHT}`} className="wire" />
              <Contact x={190} y={y(row)} name={name} />
            </g>
          )
        })
      ) : (
        <>
          <line x1={LEFT} x2={LEFT} y1={TOP + 4} y2={y(rows - 1)} className="wire" />
          {record.buttons.map(({ name, resistance }, row) => (
            <g key={name}>
              <path d={`M${LEFT} ${y(row)}H60M112 ${y(row)}H190M228 ${y(row)}H${RIGHT}`} className="wire" />
              <Lying x={60} y={y(row)} value={ohms(resistance.value)} />
              <Contact x={190} y={y(row)} name={name} />
            </g>
          ))}
        </>
      )}
      {record.idle && (
        <g>
          {chain && <line x1={LEFT} x2={LEFT} y1={y(rows - 2)} y2={y(rows - 1)} className="wire" />}
          <path d={`M${LEFT} ${y(rows - 1)}H60M112 ${y(rows - 1)}H${RIGHT}`} className="wire" />
          <Lying x={60} y={y(rows - 1)} value={ohms(record.idle.resistance.value)} />
          <text x={208} y={y(rows - 1) - 8} textAnchor="middle" className="tick">
            always, no contact
          </text>
        </g>
      )}
      <line x1={RIGHT} x2={RIGHT} y1={TOP - 6} y2={y(rows - 1)} className="wire" />
      <circle cx={RIGHT} cy={TOP - 6} r="3" className="node" />
      <text x={RIGHT + 6} y={TOP - 16} textAnchor="end" className="name">
        to the sensor earth
      </text>
    </svg>
  )
}

/** W of the usual small resistor (IEC 60115 [from memory]); half of it is kept in hand (common practice, no published source). */
const USUAL_POWER = 0.25

export function SolderDrawing({ sheet }: { sheet: SwitchSheet }) {
  const { record, powers } = sheet
  const chain = record.topology === 'chain'
  const parts = [
    ...(record.pullUp ? [{ where: 'pull-up', ...record.pullUp }] : []),
    ...record.buttons.map((button) => ({ ...button, where: chain ? `before tap ${button.name}` : button.name })),
    ...(record.idle ? [{ where: chain ? 'after the last tap' : 'no button', ...record.idle }] : []),
  ]
  const hottest = powers.reduce((most, each) => (each.power > most.power ? each : most), { resistor: '', power: 0 })
  return (
    <figure className="solder">
      <Drawing sheet={sheet} />
      <table className="controller-rows">
        <caption>Parts to solder</caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col" className="figure">
              Resistor
            </th>
            <th scope="col">Bands</th>
          </tr>
        </thead>
        <tbody>
          {parts.map(({ where, resistance, tolerance }) => (
            <tr key={where}>
              <th scope="row">{where}</th>
              <td className="figure">
                {ohms(resistance.value)}
                {tolerance !== undefined && ` ± ${Number((tolerance * 100).toPrecision(3))} %`}
              </td>
              <td>
                {(tolerance !== undefined && colourBands(resistance.value, tolerance)?.join(', ')) || 'no such code'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {hottest.power > 0 && (
        <figcaption className="small soft">
          Hottest is {hottest.resistor === 'pull-up' ? 'the pull-up' : `that of ${hottest.resistor}`},{' '}
          {showPreferred('power', hottest.power)}:{' '}
          {hottest.power <= USUAL_POWER / 2
            ? 'resistors of ¼ W stay cool.'
            : 'take a size that is good for at least twice that.'}
        </figcaption>
      )}
    </figure>
  )
}
