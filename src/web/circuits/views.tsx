/**
 * What the page of a circuit holds, in order. To add a panel: a component that takes ViewProps, and a line here; `folded`
 * ones are opened on demand.
 */
import { type ComponentType, type ReactNode, useState } from 'react'
import { DrawingView } from './drawing/DrawingView.tsx'
import { SizeView } from './size/SizeView.tsx'
import { AddDevice } from './tables/AddDevice.tsx'
import { AddWire } from './tables/AddWire.tsx'
import { DeviceTable } from './tables/DeviceTable.tsx'
import { WireTable } from './tables/WireTable.tsx'
import type { ViewProps } from './viewProps.ts'

interface CircuitView {
  readonly id: string
  readonly title: string
  readonly Body: ComponentType<ViewProps>
  readonly folded?: boolean
}

const WiresView = ({ build, circuit, wires, live, shown }: ViewProps) => (
  <>
    <WireTable {...{ build, circuit, wires, live, shown }} />
    <AddWire build={build} circuit={circuit} />
  </>
)
const DevicesView = ({ build, circuit, devices, wires, live, shown }: ViewProps) => (
  <>
    <DeviceTable {...{ build, devices, wires, live, shown }} />
    <AddDevice build={build} circuit={circuit} />
  </>
)

const VIEWS: readonly CircuitView[] = [
  { id: 'drawing', title: 'Drawing', Body: DrawingView },
  { id: 'size', title: 'Size a wire or a device', Body: SizeView, folded: true },
  { id: 'wires', title: 'Wires', Body: WiresView },
  { id: 'devices', title: 'Devices', Body: DevicesView },
]

export function CircuitViews(props: ViewProps) {
  return VIEWS.map(({ id, title, Body, folded }) =>
    folded ? (
      <Folded key={id} title={title}>
        {() => <Body {...props} />}
      </Folded>
    ) : (
      <section key={id} aria-label={title}>
        <Body {...props} />
      </section>
    ),
  )
}

/** What is folded is not reckoned before it is opened. */
function Folded({ title, children }: { title: string; children: () => ReactNode }) {
  const [open, setOpen] = useState(false)
  return (
    <details className="view" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {open && children()}
    </details>
  )
}
