/** What can be tried on the air's way. */
import type { Build } from '../../model/build.ts'
import { type Lever, wireLever } from '../chain/levers.ts'

export const airLevers = (build: Build): readonly Lever[] => {
  const { air, engine } = build.sheets
  const cooler = air?.chargeCooler
  const levers: Lever[] = [
    { id: 'altitude', station: 'outside', label: 'Altitude', kind: 'length', sheet: 'vehicle', path: ['altitude'] },
    { id: 'humidity', station: 'outside', label: 'Humidity', kind: 'ratio', sheet: 'air', path: ['humidity'] },
    {
      id: 'intake',
      station: 'intake',
      label: 'Intake temperature',
      kind: 'temperature',
      sheet: 'air',
      path: ['intakeTemperature'],
    },
    {
      id: 'filter',
      station: 'filter',
      label: 'Loss of the filter at its known flow',
      kind: 'pressureDifference',
      sheet: 'air',
      path: ['filter', 'loss'],
    },
    {
      id: 'efficiency-volumetric',
      station: 'engine',
      label: 'Volumetric efficiency',
      kind: 'ratio',
      sheet: 'air',
      path: ['volumetricEfficiency'],
    },
  ]
  ;(air?.pipes ?? []).forEach((pipe, index) => {
    levers.push({
      id: `bore-${pipe.id}`,
      station: pipe.side === 'before the compressor' ? 'filter' : 'charge-pipe',
      label: `Bore of ${pipe.name}`,
      kind: 'length',
      sheet: 'air',
      path: ['pipes', index, 'bore'],
    })
  })
  if (engine?.charging !== 'none')
    levers.push(
      {
        id: 'ratio',
        station: 'compressor',
        label: 'Pressure ratio',
        kind: 'ratio',
        sheet: 'air',
        path: ['pressureRatio'],
      },
      {
        id: 'efficiency',
        station: 'compressor',
        label: 'Compressor efficiency',
        kind: 'ratio',
        sheet: 'air',
        path: ['compressorEfficiency'],
      },
    )
  if (cooler) {
    levers.push(
      {
        id: 'cooler',
        station: 'cooler',
        label: 'Conductance of the charge cooler',
        kind: 'heatCapacityRate',
        sheet: 'air',
        path: ['chargeCooler', 'conductance'],
      },
      {
        id: 'cold-air',
        station: cooler.kind === 'air to water' ? 'front' : 'cooler',
        label: 'Cold air flow',
        kind: 'volumeFlow',
        sheet: 'air',
        path: ['chargeCooler', 'coldAirFlow'],
      },
    )
    if (cooler.kind === 'air to water')
      levers.push(
        ...wireLever(build, cooler.pump, 'loop'),
        {
          id: 'loop-flow',
          station: 'loop',
          label: 'Flow of the loop at its known voltage',
          kind: 'volumeFlow',
          sheet: 'air',
          path: ['chargeCooler', 'loop', 'flow'],
        },
        {
          id: 'front',
          station: 'front',
          label: 'Conductance of the front exchanger',
          kind: 'heatCapacityRate',
          sheet: 'air',
          path: ['chargeCooler', 'loop', 'frontConductance'],
        },
        {
          id: 'loop-volume',
          station: 'store',
          label: 'Volume of the loop',
          kind: 'volume',
          sheet: 'air',
          path: ['chargeCooler', 'loop', 'volume'],
        },
        { id: 'pull', station: 'store', label: 'Length of the pull', kind: 'time', sheet: 'air', path: ['pull'] },
      )
  }
  return levers
}
