/** The parts of the driveline as thin lines, each round its own middle, about 60 wide and 60 high. */
import type { ReactNode } from 'react'

const GEAR_TEETH = 'M-8 -18h16M-8 18h16M-8 -14h16M-8 14h16'

export const SYMBOLS: Readonly<Record<string, ReactNode>> = {
  crank: (
    <>
      <rect className="body" x="-30" y="-26" width="60" height="40" />
      <path className="pen" d="M-30 0h10v-12h10v12h10v12h10v-12h10v-12h10v12h10" />
      <path className="fine" d="M-20 -26v-10h12v10M8 -26v-10h12v10" />
    </>
  ),
  clutch: (
    <>
      <rect className="body" x="-14" y="-28" width="8" height="56" />
      <rect className="body" x="-4" y="-24" width="4" height="48" />
      <path className="pen" d="M2 -24h6v48h-6M8 -18l8 18l-8 18" />
    </>
  ),
  gearbox: (
    <>
      <path className="body" d="M-30 -28H8L30 -14V14L8 28H-30Z" />
      <path className="fine" d={GEAR_TEETH} transform="translate(-14 -6) scale(0.8 0.6)" />
      <path className="fine" d={GEAR_TEETH} transform="translate(6 -4) scale(0.8 0.5)" />
      <path className="pen" d="M-26 16H14" />
    </>
  ),
  mounts: (
    <>
      <path className="pen" d="M-24 -8H24V4H-24Z" />
      <path className="body" d="M-20 4h12v14h-12zM8 4h12v14h-12z" />
      <path className="fine" d="M-26 18H26M-22 18l-5 6M-12 18l-5 6M-2 18l-5 6M8 18l-5 6M18 18l-5 6" />
    </>
  ),
  shaft: (
    <>
      <path className="body" d="M-38 -10H38V10H-38Z" />
      <path className="fine" d="M-38 0H38" strokeDasharray="9 3 2 3" />
    </>
  ),
  joints: (
    <>
      <path className="pen" d="M-30 0h10M-20 -12h14v24h-14zM6 -12h14v24h-14M20 0h10" />
      <circle className="body" r="7" />
      <path className="pen" d="M0 -12V12M-6 0H6" />
    </>
  ),
  axle: (
    <>
      <circle className="body" r="24" />
      <path className="pen" d="M-30 0h20M-10 -8l12 -5v26l-12 -5z" />
      <path className="fine" d="M4 -18v36M8 -16v32" />
    </>
  ),
  tyres: (
    <>
      <circle className="body" r="28" />
      <circle className="fine" r="16" />
      <path className="pen" d="M-36 28H36" />
    </>
  ),
}
