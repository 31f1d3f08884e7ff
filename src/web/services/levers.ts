/** What can be tried at oil, exhaust and cabin services, each at its station: every datum of the three sheets. */
import { partStation } from '../../assess/services/otherStations.ts'
import type { Build, SheetName } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import type { Lever } from '../chain/levers.ts'
import { measureText } from '../parts/quantityText.ts'

type Path = readonly (string | number)[]
const at =
  (sheet: SheetName) =>
  (id: string, station: string, label: string, kind: Kind, ...path: Path): Lever => ({
    id,
    station,
    label,
    kind,
    sheet,
    path,
  })
const choose = (
  sheet: SheetName,
  id: string,
  station: string,
  label: string,
  options: Readonly<Record<string, string | boolean>>,
  ...path: Path
): Lever => ({ id, station, label, options, sheet, path })
const same = (...words: readonly string[]): Record<string, string> =>
  Object.fromEntries(words.map((word) => [word, word]))
const YES_NO = { yes: true, no: false }

const oil = at('oil')
const exhaust = at('exhaust')
const cabin = at('cabin')

const OIL: readonly Lever[] = [
  choose('oil', 'grade', 'oil', 'Grade’s second number', same('16', '20', '30', '40', '50', '60'), 'grade'),
  oil('viscosity40', 'oil', 'Viscosity at 40 °C', 'kinematicViscosity', 'viscosity40'),
  oil('viscosity100', 'oil', 'Viscosity at 100 °C', 'kinematicViscosity', 'viscosity100'),
  oil('oil-density', 'oil', 'Density at 15 °C', 'density', 'density'),
  oil('oil-hot', 'oil', 'Hot, in the sump', 'temperature', 'hotTemperature'),
  oil('oil-cold', 'oil', 'At the coldest start', 'temperature', 'coldTemperature'),
  oil('oil-flow', 'oil', 'Flow through the engine, hot, full load', 'volumeFlow', 'flow'),
  oil('oil-heat', 'oil', 'Heat that it takes up at full load', 'power', 'heat'),
  oil('capacity', 'oil', 'Filling', 'volume', 'capacity'),
  oil('relief', 'pressure', 'Relief valve opens at', 'pressureGauge', 'relief'),
  oil('hot-idle', 'pressure', 'At hot idle', 'pressureGauge', 'hotIdlePressure'),
]
const TURBO: readonly Lever[] = [
  oil('feed-bore', 'feed', 'Bore of the feed', 'length', 'turboFeedBore'),
  oil('feed-length', 'feed', 'Length of the feed', 'length', 'turboFeedLength'),
  oil('restrictor', 'feed', 'Bore of the restrictor, empty for none', 'length', 'turboRestrictor'),
  oil('turbo-need', 'feed', 'Oil that the turbocharger takes, hot', 'volumeFlow', 'turboNeed'),
  oil('turbo-least', 'feed', 'Least pressure at its inlet', 'pressureGauge', 'turboLeastPressure'),
  oil('turbo-most', 'feed', 'Greatest pressure at its inlet', 'pressureGauge', 'turboMostPressure'),
  oil('drain-bore', 'drain', 'Bore of the drain', 'length', 'turboDrainBore'),
  oil('outlet', 'drain', 'Bore of the turbocharger’s outlet', 'length', 'turboOutletBore'),
  oil('drain-length', 'drain', 'Length of the drain', 'length', 'turboDrainLength'),
  oil('drain-fall', 'drain', 'Fall from outlet to sump', 'length', 'turboDrainFall'),
  oil('drain-above', 'drain', 'Its end above the oil’s level, negative below', 'length', 'turboDrainAbove'),
]
const BREATHER: readonly Lever[] = [
  choose(
    'oil',
    'breather',
    'breather',
    'The crankcase breathes',
    same('open', 'to the intake', 'catch tank'),
    'breather',
  ),
  choose('oil', 'tank-vent', 'breather', 'Catch tank vents', same('to the intake', 'open'), 'catchTankVent'),
  choose(
    'oil',
    'tank-drain',
    'breather',
    'Catch tank drains',
    same('back to the sump', 'emptied by hand'),
    'catchTankDrain',
  ),
  oil('breather-bore', 'breather', 'Bore of the breather', 'length', 'breatherBore'),
  oil('breather-length', 'breather', 'Length of the breather', 'length', 'breatherLength'),
  oil('blow-by-share', 'breather', 'Blow-by over the engine’s air', 'ratio', 'blowByShare'),
  oil('crankcase-limit', 'breather', 'Greatest pressure in the crankcase', 'pressureDifference', 'crankcaseLimit'),
]
const EXHAUST: readonly Lever[] = [
  exhaust('gas-temperature', 'gas', 'Gas in the pipe at full load', 'temperature', 'gasTemperature'),
  exhaust('back-measured', 'back-pressure', 'Measured at full load', 'pressureGauge', 'backPressure'),
  exhaust('back-limit', 'back-pressure', 'Greatest by the maker', 'pressureGauge', 'backPressureLimit'),
  exhaust('surface', 'surface', 'Surface of the hottest pipe', 'temperature', 'surface'),
  exhaust('outside', 'surface', 'Outside diameter of the pipe', 'length', 'outside'),
  exhaust('emissivity', 'surface', 'Emissivity of its surface', 'ratio', 'emissivity'),
]
const CABIN: readonly Lever[] = [
  choose(
    'cabin',
    'heater-state',
    'heater',
    'Heater circuit',
    same('in the circuit', 'shut off by a tap', 'matrix bridged', 'connections blanked'),
    'heater',
    'state',
  ),
  choose('cabin', 'heater-bypass', 'heater', 'The engine’s bypass runs through it', YES_NO, 'heater', 'bypass'),
  cabin('heater-flow', 'heater', 'Coolant through the matrix', 'volumeFlow', 'heater', 'coolantFlow'),
  cabin('heater-speed', 'heater', 'Engine speed of that flow', 'angularSpeed', 'heater', 'flowSpeed'),
  cabin('heater-air', 'heater', 'Air through the matrix', 'volumeFlow', 'heater', 'airFlow'),
  cabin('heater-conductance', 'heater', 'Conductance of the matrix', 'heatCapacityRate', 'heater', 'conductance'),
  cabin('heater-outside', 'heater', 'Air drawn in on the coldest day', 'temperature', 'heater', 'outside'),
  cabin('heater-wanted', 'heater', 'Heat that the cabin asks for', 'power', 'heater', 'wanted'),
  choose(
    'cabin',
    'steering',
    'steering',
    'What helps the steering',
    same('none', 'by belt', 'electric'),
    'steering',
    'kind',
  ),
  cabin('steering-flow', 'steering', 'Flow of the pump at idle', 'volumeFlow', 'steering', 'pumpFlow'),
  cabin('steering-relief', 'steering', 'Relief pressure of the pump', 'pressureDifference', 'steering', 'relief'),
  cabin('steering-efficiency', 'steering', 'Efficiency of the pump', 'ratio', 'steering', 'efficiency'),
  cabin('crank-pulley', 'steering', 'Pulley on the crankshaft, across', 'length', 'steering', 'crankPulley'),
  cabin('idle-speed', 'steering', 'Idle speed', 'angularSpeed', 'idleSpeed'),
  cabin('idle-torque', 'steering', 'Torque that idle can spare', 'torque', 'idleTorque'),
]

/** A row of a list is tried where it stands; rows are added and taken away in their own forms. */
const rowLevers = ({ sheets, collections }: Build): readonly Lever[] => {
  const { oil: oilSheet = {}, exhaust: exhaustSheet = {} } = sheets
  const parts = exhaustSheet.parts ?? []
  const pointName = (id: string): string => collections.branchPoints[id]?.name ?? id
  const runs = Object.fromEntries(
    Object.values(collections.runs).map(({ id, from, to }) => [`${pointName(from)} to ${pointName(to)}, ${id}`, id]),
  )
  const zones = Object.fromEntries(Object.values(collections.zones).map(({ id, name }) => [name, id]))
  return [
    ...(oilSheet.pressures ?? []).map(([speed], index) =>
      oil(
        `pressure-${index}`,
        'pressure',
        `Read at ${measureText('angularSpeed', speed)}`,
        'pressureGauge',
        'pressures',
        index,
        1,
      ),
    ),
    ...(oilSheet.leastPressures ?? []).map(([speed], index) =>
      oil(
        `least-${index}`,
        'pressure',
        `Maker’s least at ${measureText('angularSpeed', speed)}`,
        'pressureGauge',
        'leastPressures',
        index,
        1,
      ),
    ),
    ...(parts.length === 0
      ? [
          exhaust('pipe-bore', partStation('pipe'), 'Bore', 'length', 'bore'),
          exhaust('pipe-length', partStation('pipe'), 'Length', 'length', 'length'),
          exhaust('pipe-bends', partStation('pipe'), 'Losses of its bends, velocity heads', 'ratio', 'fittings'),
        ]
      : parts.flatMap(({ id }, index) => {
          const part = (field: string, label: string, kind: Kind) =>
            exhaust(`${id}-${field}`, partStation(id), label, kind, 'parts', index, field)
          return [
            part('bore', 'Bore', 'length'),
            part('length', 'Length', 'length'),
            part('fittings', 'Losses of its bends, velocity heads', 'ratio'),
            part('gasTemperature', 'Gas here', 'temperature'),
            part('loss', 'Known loss, of a catalyst or silencer', 'pressureDifference'),
            part('lossFlow', 'Gas flow of that loss', 'massFlow'),
          ]
        })),
    ...(exhaustSheet.near ?? []).flatMap((_item, index) => {
      const station = `near-${index}`
      const near = (field: string, label: string, kind: Kind) =>
        exhaust(`${station}-${field}`, station, label, kind, 'near', index, field)
      return [
        choose(
          'exhaust',
          `${station}-what`,
          station,
          'It is',
          same('wires', 'fuel', 'brakes', 'other'),
          'near',
          index,
          'what',
        ),
        near('distance', 'Gap to the hot metal', 'length'),
        choose('exhaust', `${station}-shield`, station, 'A shield between', YES_NO, 'near', index, 'shielded'),
        near('surface', 'Hot metal beside it', 'temperature'),
        near('outside', 'Hot pipe, across', 'length'),
        near('diameter', 'Its own outside diameter', 'length'),
        near('limit', 'It stands for long', 'temperature'),
        choose('exhaust', `${station}-run`, station, 'It is the run of the loom', runs, 'near', index, 'run'),
        choose('exhaust', `${station}-zone`, station, 'It runs in', zones, 'near', index, 'zone'),
      ]
    }),
  ]
}

export const servicesLevers = (build: Build): readonly Lever[] => [
  ...OIL,
  ...(build.sheets.engine?.charging === 'turbocharger' ? TURBO : []),
  ...BREATHER,
  ...EXHAUST,
  ...rowLevers(build),
  ...CABIN,
]
