/**
 * Symbols of our own drawing, after IEC 60617. Each stands upright in a body 48 high, its upper pin at (0, 0) and its
 * lower at (0, 48); strokes and fills come from the style sheet.
 */
import type { Contact } from './live.ts'

const LEADS = 'M0 0V10M0 38V48'

export function LoadSymbol({ kind }: { kind: string }) {
  switch (kind) {
    case 'lamp':
      return (
        <>
          <path d="M0 0V10M0 38V48M-9.9 14.1L9.9 33.9M9.9 14.1L-9.9 33.9" />
          <circle cx="0" cy="24" r="14" className="hollow" />
        </>
      )
    case 'motor':
      return (
        <>
          <path d={LEADS} />
          <circle cx="0" cy="24" r="14" />
          <text x="0" y="29" textAnchor="middle" className="letter">
            M
          </text>
        </>
      )
    case 'pump':
      return (
        <>
          <path d={LEADS} />
          <circle cx="0" cy="24" r="14" />
          <path d="M-5.5 15L0 10.6L5.5 15Z" className="solid" />
          <text x="0" y="31" textAnchor="middle" className="letter">
            M
          </text>
        </>
      )
    case 'heater':
      return (
        <>
          <path d={LEADS} />
          <rect x="-7" y="10" width="14" height="28" />
          <path d="M-7 17H7M-7 24H7M-7 31H7" />
        </>
      )
    case 'solenoid':
      return (
        <>
          <path d="M0 0V15M0 33V48" />
          <rect x="-14" y="15" width="28" height="18" />
          <path d="M-14 33L-5 15" />
        </>
      )
    case 'injector':
      return (
        <>
          <path d="M0 0V15M0 33V48" />
          <rect x="-14" y="15" width="28" height="18" />
          <path d="M-14 24H-20M-20 24L-26 20V28Z" className="solid" />
        </>
      )
    case 'coil':
      return <path d="M0 0V8a4 4 0 0 1 0 8a4 4 0 0 1 0 8a4 4 0 0 1 0 8a4 4 0 0 1 0 8V48M-7 8V40M-10 8V40" />
    case 'sensor':
      return (
        <>
          <path d={LEADS} />
          <rect x="-14" y="10" width="28" height="28" />
          <path d="M-9 33L9 15M4.5 15.5L9 15L8.5 19.5" />
        </>
      )
    case 'gauge':
      return (
        <>
          <path d={LEADS} />
          <circle cx="0" cy="24" r="14" />
          <path d="M-6 31L7 15.5M2.6 17.4L7 15.5L6 20.2" />
        </>
      )
    default:
      return (
        <>
          <path d={LEADS} />
          <rect x="-14" y="10" width="28" height="28" />
        </>
      )
  }
}

export function FuseSymbol() {
  return (
    <>
      <path d="M0 0V48" />
      <rect x="-6" y="9" width="12" height="30" />
    </>
  )
}

export function ResistorSymbol() {
  return (
    <>
      <path d="M0 0V9M0 39V48" />
      <rect x="-6" y="9" width="12" height="30" />
    </>
  )
}

/** Passes downwards, or where it stands the other way round, upwards. */
export function DiodeSymbol({ turned }: { turned: boolean }) {
  return (
    <g transform={turned ? 'rotate(180 0 24)' : undefined}>
      <path d="M0 0V16M0 32V48M-10 32H10" />
      <path d="M-10 16H10L0 32Z" className="hollow" />
    </g>
  )
}

/** The winding of a relay; a bar across it shows that it holds. */
export function CoilSymbol({ held }: { held: boolean | undefined }) {
  return (
    <>
      <path d="M0 0V14M0 34V48" />
      <rect x="-17" y="14" width="34" height="20" className={held ? 'tinted' : undefined} />
    </>
  )
}

/**
 * Make and break contacts, moving end at the bottom (`flipped`: at the top). A make contact leans away from its fixed
 * end; a break contact rests on a hooked one. Drawn as it stands, open or closed.
 */
export function ContactSymbol({ state, breaks, flipped }: { state: Contact; breaks: boolean; flipped: boolean }) {
  const isClosed = state === 'closed'
  return (
    <g transform={flipped ? 'matrix(1 0 0 -1 0 48)' : undefined}>
      <path d="M0 0V12M0 36V48" />
      {breaks && <path d={isClosed ? 'M0 12H9' : 'M0 12H9'} />}
      {isClosed ? (
        <path d={breaks ? 'M0 36L6 9' : 'M0 36V12'} className="blade" />
      ) : (
        <path d={breaks ? 'M0 36L-9 13' : 'M0 36L-11 13'} className="blade" strokeDasharray={dashes(state)} />
      )}
      <circle cx="0" cy="36" r="1.8" className="solid" />
      {isClosed && !breaks && <circle cx="0" cy="12" r="1.8" className="solid" />}
    </g>
  )
}
const dashes = (state: Contact): string | undefined => (state === 'unknown' ? '2 3' : undefined)

/** Change-over contact between two throws `half` to either side; common on top, or at the bottom when flipped. */
export function ChangeOverSymbol({
  states,
  half,
  flipped,
}: {
  states: readonly [Contact, Contact]
  half: number
  flipped: boolean
}) {
  const to = states[0] === 'closed' ? -10 : states[1] === 'closed' ? 10 : 0
  return (
    <g transform={flipped ? 'matrix(1 0 0 -1 0 48)' : undefined}>
      <path d={`M0 0V12M-13 35V42H${-half}V48M13 35V42H${half}V48M-13 35H-7M13 35H7`} />
      <path d={`M0 12L${to} 35`} className="blade" strokeDasharray={to === 0 ? '2 3' : undefined} />
      <circle cx="0" cy="12" r="1.8" className="solid" />
    </g>
  )
}

/** Two plates on a supply bar: the long one is positive. */
export function BatteryMark() {
  return <path d="M0 4V14M-9 14H9M-4.5 19H4.5M0 19V30" />
}

export function AlternatorMark() {
  return (
    <>
      <circle cx="0" cy="16" r="12" />
      <text x="0" y="18" textAnchor="middle" className="letter">
        G
      </text>
      <path d="M-5 22.5q2.5 -3 5 0t5 0" />
    </>
  )
}

/** Body: a chassis (slanted teeth). Engine or a stud of its own: earth (three bars). */
export function EarthMark({ on }: { on: string }) {
  return on === 'body' ? (
    <path d="M0 0V12M-13 12H13M-13 12L-18 20M0 12L-5 20M13 12L8 20" />
  ) : (
    <path d="M0 0V12M-13 12H13M-8 16.5H8M-3.5 21H3.5" />
  )
}

/** Plug and socket of one way. */
export function ConnectorSymbol({ height }: { height: number }) {
  const middle = height / 2
  return (
    <>
      <path d={`M0 0V${middle - 9}M0 ${middle + 2}V${height}M-7 ${middle + 9}A7 7 0 0 1 7 ${middle + 9}`} />
      <rect x="-2.6" y={middle - 9} width="5.2" height="11" rx="2.4" className="solid" />
    </>
  )
}
