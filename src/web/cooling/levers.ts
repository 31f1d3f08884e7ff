/** What can be tried on the cooling loop. */
import type { Build } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Lever, wireLever } from '../chain/levers.ts'

const lever = (
  id: string,
  station: string,
  label: string,
  kind: Kind,
  ...path: readonly (string | number)[]
): Lever => ({ id, station, label, kind, sheet: 'cooling', path })

const LEVERS: readonly Lever[] = [
  lever('sustained', 'engine', 'Power held for long', 'power', 'sustainedPower'),
  lever('engine-speed', 'engine', 'Engine speed of that climb', 'angularSpeed', 'sustainedEngineSpeed'),
  lever('share', 'engine', 'Share of the heat to the coolant', 'ratio', 'heatShare'),
  lever('thermostat', 'thermostat', 'Thermostat opens at', 'temperature', 'thermostat'),
  lever('pump', 'flow', 'Coolant flow at its known speed', 'volumeFlow', 'pumpFlow'),
  lever('road-speed', 'air', 'Road speed of that climb', 'speed', 'sustainedRoadSpeed'),
  lever('ram', 'air', 'Share of the dynamic pressure', 'ratio', 'ramShare'),
  lever('conductance', 'radiator', 'Conductance of the radiator', 'heatCapacityRate', 'radiatorConductance'),
  lever('cap', 'cap', 'Pressure of the cap', 'pressureGauge', 'capPressure'),
  lever('glycol', 'cap', 'Glycol in the coolant', 'ratio', 'glycolFraction'),
  { id: 'altitude', station: 'cap', label: 'Altitude', kind: 'length', sheet: 'vehicle', path: ['altitude'] },
  lever('volume', 'header', 'Volume of coolant', 'volume', 'coolantVolume'),
  lever('hold-start', 'hold', 'Pressure at the start', 'pressureGauge', 'hold', 'startPressure'),
  lever('hold-end', 'hold', 'Pressure at the end', 'pressureGauge', 'hold', 'endPressure'),
  lever('hold-cold', 'hold', 'Temperature at the start', 'temperature', 'hold', 'startTemperature'),
  lever('hold-hot', 'hold', 'Temperature at the end', 'temperature', 'hold', 'endTemperature'),
  lever('hold-time', 'hold', 'Time held', 'time', 'hold', 'time'),
  lever('hold-gas', 'hold', 'Trapped gas volume', 'volume', 'hold', 'gasVolume'),
  lever('hold-give', 'hold', 'Give of the hoses', 'volume', 'hold', 'hoseGive'),
  lever('space', 'header', 'Gas space of the header, cold', 'volume', 'headerSpace'),
]
export const coolingLevers = (build: Build): readonly Lever[] => [
  ...LEVERS,
  ...wireLever(build, build.sheets.cooling?.fans?.[0], 'air'),
]
