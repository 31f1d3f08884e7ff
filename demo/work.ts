/** Milestones, ways of getting at things, parts and jobs. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { hours, minutes } from './quantities.ts'

type Job = Entity<'jobs'>
type Access = Entity<'accesses'>
type Part = Entity<'parts'>

const PETROL = 'petrol and its vapour'
const BATTERY = 'battery'
const LIFTING = 'lifting'
const BRAKES = 'brakes'

export const work = ({ put }: Draft): void => {
  put(
    'milestones',
    { id: 'first-power', name: 'First power', order: 1 },
    { id: 'first-start', name: 'First start', order: 2 },
    { id: 'first-drive', name: 'First drive', order: 3 },
    { id: 'inspection', name: 'Inspection', order: 4 },
  )
  const access = (id: string, name: string, zone: string, open: number, close: number, more?: Partial<Access>) =>
    put('accesses', { id, name, zone, open: minutes(open), close: minutes(close), ...more })
  access('bonnet-up', 'Bonnet up', 'engine-bay', 1, 1)
  access('battery-off', 'Battery disconnected', 'battery-tray', 5, 10, {
    requires: ['bonnet-up'],
    excludes: ['battery-on'],
  })
  access('battery-on', 'Battery connected', 'battery-tray', 5, 5, {
    requires: ['bonnet-up'],
    excludes: ['battery-off'],
  })
  access('front-panel', 'Grille and front panel off', 'nose', 25, 40, { isOpen: true })
  access('inlet-off', 'Inlet manifold off', 'on-engine', 60, 90, { requires: ['bonnet-up', 'battery-off'] })
  access('coolant-out', 'Coolant drained', 'engine-bay', 30, 50, { requires: ['bonnet-up'], cautions: ['hot coolant'] })
  access('stands', 'On four stands', 'underside', 30, 25, { cautions: [LIFTING] })
  access('front-wheels-off', 'Front wheels off', 'engine-bay', 10, 15, { requires: ['stands'] })
  access('rear-wheels-off', 'Rear wheels off', 'tank-bay', 10, 15, { requires: ['stands'] })
  access('tank-empty', 'Tank empty and aired', 'tank-bay', 50, 20, {
    requires: ['battery-off'],
    excludes: ['battery-on'],
    cautions: [PETROL],
  })
  access('tank-out', 'Tank out', 'tank-bay', 45, 70, { requires: ['tank-empty', 'stands'] })
  access('dash-off', 'Dash panel off', 'dash', 35, 55, { isOpen: true })
  access('left-seat-out', 'Left seat out', 'cabin', 10, 15)
  access('mats-out', 'Mats and sill covers out', 'left-footwell', 15, 25, {
    requires: ['left-seat-out'],
    drivable: false,
  })
  access('load-lining-off', 'Load space lining off, left', 'load-space', 30, 45, { drivable: true })
  access('rear-lamps-off', 'Rear lamp units off', 'rear', 15, 20)
  access('gearbox-down', 'Gearbox crossmember lowered', 'underside', 45, 60, { requires: ['stands'] })
  access('turbo-shield-off', 'Turbocharger shield off', 'on-engine', 15, 20, { requires: ['bonnet-up'] })

  const part = (id: string, name: string, status: Part['status'], more?: Partial<Part>) =>
    put('parts', { id, name, status, ...more })
  part('strap-35', 'Earth strap, 35 mm², two M8 rings', 'wanted', {
    quantity: 1,
    price: 9.5,
    currency: 'EUR',
    supplier: 'wire and terminal supplier',
  })
  part('fuse-holder-150', 'Bolt-down fuse holder and 150 A fuse', 'ordered', {
    due: '2025-06-12',
    price: 18,
    currency: 'EUR',
  })
  part('fuse-holder-40', 'Sealed holder and 40 A high-current blade fuse', 'arrived')
  part('wire-2-5', 'Wire 2.5 mm², green with red, 10 m', 'on the shelf', { quantity: 10 })
  part('wire-0-75', 'Wire 0.75 mm², assorted', 'on the shelf', { quantity: 60 })
  part('injectors-large', 'Four injectors, 300 g/min at 3 bar', 'wanted', {
    quantity: 4,
    price: 180,
    currency: 'EUR',
    supplier: 'injector specialist',
  })
  part('charge-core', 'Charge cooler core with more rows', 'wanted')
  part('crimp-tool', 'Crimping tool for open barrels', 'borrowed', { from: 'neighbour', backBy: '2025-07-01' })
  part('engine-crane', 'Engine crane', 'returned', { from: 'club' })
  part('hose-fuel', 'Fuel hose 8 mm, injection grade, 4 m', 'arrived', { quantity: 4, bestBefore: '2032-06-30' })
  part('fuel-filter', 'Fuel filter, injection', 'on the shelf')
  part('rollover-valve', 'Rollover valve', 'ordered', { due: '2025-06-20' })
  part('canister', 'Charcoal canister', 'on the shelf')
  part('sealed-plug-3', 'Sealed plug, 3 ways', 'wanted', {
    quantity: 1,
    supplier: 'wire and terminal supplier',
    price: 6.4,
    currency: 'EUR',
  })
  part('sealed-plug-2', 'Sealed plug, 2 ways', 'fitted', { quantity: 1 })
  part('grommet-38', 'Grommet for a 38 mm hole', 'arrived')
  part('brake-hose-set', 'Brake hoses, set', 'on the shelf')
  part('brake-fluid', 'Brake fluid, 1 l', 'on the shelf', { bestBefore: '2026-03-31' })
  part('coolant', 'Coolant, 5 l', 'wanted', { supplier: 'motor factor', price: 21, currency: 'EUR' })
  part('oil', 'Engine oil, 5 l', 'on the shelf')
  part('propshaft', 'Propshaft, shortened and balanced', 'ordered', { due: '2025-07-05' })
  part('old-radiator', 'Radiator of 1972', 'removed')
  part('exhaust-gasket', 'Downpipe gasket', 'on the shelf')
  part('extinguisher', 'Fire extinguisher, 2 kg', 'wanted', { supplier: 'motor factor' })
  part('silencer', 'Rear silencer', 'wanted')

  /** Id, title, zone, hours (least, likely, most), accesses, milestone, then what else there is to say. */
  type Row = readonly [
    string,
    string,
    string,
    readonly [number, number, number],
    readonly string[],
    string,
    Partial<Job>?,
  ]
  const needs = (jobs: string[], parts: string[] = []): Partial<Job> => ({
    needs: { ...(jobs.length > 0 ? { jobs } : {}), ...(parts.length > 0 ? { parts } : {}) },
  })
  const rows: readonly Row[] = [
    [
      'J-1',
      'Clean and tin-plate the earth face on the left wing',
      'battery-tray',
      [0.3, 0.5, 1],
      ['battery-off'],
      'first-power',
    ],
    [
      'J-2',
      'Make and fit the engine earth strap, 35 mm²',
      'engine-bay',
      [0.4, 0.7, 1.2],
      ['battery-off'],
      'first-power',
      needs(['J-1'], ['strap-35']),
    ],
    [
      'J-3',
      'Fit the alternator fuse at the battery',
      'battery-tray',
      [0.5, 0.8, 1.5],
      ['battery-off'],
      'first-power',
      needs([], ['fuse-holder-150']),
    ],
    [
      'J-4',
      'Fit the fan feed fuse',
      'battery-tray',
      [0.4, 0.6, 1],
      ['battery-off'],
      'first-power',
      needs([], ['fuse-holder-40']),
    ],
    [
      'J-5',
      'Clip the starter cable along the chassis leg',
      'engine-bay',
      [0.3, 0.5, 0.8],
      ['battery-off'],
      'first-power',
    ],
    [
      'J-6',
      'Fit the grommet and draw the main loom through the bulkhead',
      'bulkhead',
      [0.8, 1.3, 2.5],
      ['battery-off', 'dash-off'],
      'first-power',
      needs([], ['grommet-38']),
    ],
    ['J-7', 'Mount the fuse box rails', 'dash', [0.6, 1, 1.8], ['dash-off'], 'first-power'],
    [
      'J-8',
      'Land terminal 30 wires on the fuse box',
      'dash',
      [0.8, 1.2, 2],
      ['dash-off', 'battery-off'],
      'first-power',
      needs(['J-6', 'J-7']),
    ],
    [
      'J-9',
      'Land terminal 15 wires on the fuse box',
      'dash',
      [0.8, 1.2, 2],
      ['dash-off', 'battery-off'],
      'first-power',
      needs(['J-7']),
    ],
    ['J-10', 'Fit the ignition switch and its plug', 'dash', [0.4, 0.6, 1], ['dash-off'], 'first-power'],
    ['J-11', 'Fit the controller shelf', 'left-footwell', [0.8, 1.4, 2.5], ['mats-out'], 'first-power'],
    [
      'J-12',
      'Mount the engine fuse box and relays',
      'left-footwell',
      [0.6, 1, 1.6],
      ['mats-out'],
      'first-power',
      needs(['J-11']),
    ],
    [
      'J-13',
      'Crimp and plug controller connector A',
      'left-footwell',
      [1.5, 2.5, 4],
      ['mats-out', 'battery-off'],
      'first-power',
      needs(['J-11'], ['crimp-tool']),
    ],
    [
      'J-14',
      'Crimp and plug controller connector B',
      'left-footwell',
      [1.5, 2.5, 4],
      ['mats-out', 'battery-off'],
      'first-power',
      needs(['J-11'], ['crimp-tool', 'wire-0-75']),
    ],
    [
      'J-15',
      'Draw the charge temperature wires to the controller',
      'left-footwell',
      [0.5, 0.9, 1.5],
      ['mats-out', 'bonnet-up'],
      'first-start',
      { ...needs(['J-14'], ['wire-0-75']), finding: 'input-unwired:inputs/in-charge-after' },
    ],
    [
      'J-16',
      'Move the fuel pressure sensor return to the sensor splice',
      'bulkhead',
      [0.3, 0.5, 0.9],
      ['bonnet-up', 'battery-off'],
      'first-start',
      { ...needs([], ['wire-0-75']), finding: 'sensor-return:wires/W-267' },
    ],
    [
      'J-17',
      'Remake the joint at injector 3 as a crimp',
      'on-engine',
      [0.3, 0.5, 1],
      ['inlet-off'],
      'first-start',
      { ...needs([], ['crimp-tool']), finding: 'solder-in-vibration:wires/W-214' },
    ],
    [
      'J-18',
      'Run 2.5 mm² to the fuel pump and back',
      'load-space',
      [1.2, 2, 3.5],
      ['load-lining-off', 'battery-off'],
      'first-start',
      { ...needs([], ['wire-2-5']), finding: 'pump-supports-power:sheet/fuel', cautions: [PETROL] },
    ],
    [
      'J-19',
      'Replace the plug at the nose by a sealed one',
      'nose',
      [0.4, 0.7, 1.2],
      ['front-panel', 'battery-off'],
      'first-start',
      needs([], ['sealed-plug-3', 'crimp-tool']),
    ],
    [
      'J-20',
      'Wire the horn return',
      'nose',
      [0.2, 0.4, 0.7],
      ['front-panel'],
      'inspection',
      { finding: 'no-return:devices/horn' },
    ],
    ['J-21', 'Replace the right dipped beam wire', 'nose', [0.8, 1.2, 2], ['front-panel', 'battery-off'], 'inspection'],
    [
      'J-22',
      'Replace the socket wire or its fuse',
      'load-space',
      [0.6, 1, 1.8],
      ['load-lining-off', 'battery-off'],
      'first-power',
    ],
    [
      'J-23',
      'Replace the loudspeaker cable at the load space lamp',
      'load-space',
      [0.4, 0.6, 1],
      ['load-lining-off', 'battery-off'],
      'inspection',
    ],
    [
      'J-24',
      'Give the clutch switch its own controller pin',
      'left-footwell',
      [0.3, 0.5, 0.9],
      ['mats-out'],
      'first-drive',
      needs(['J-14']),
    ],
    [
      'J-25',
      'Find the right pin for the steering wheel buttons',
      'left-footwell',
      [0.3, 0.5, 1],
      ['mats-out'],
      'inspection',
      needs(['J-14']),
    ],
    [
      'J-26',
      'Earth test with the battery off',
      'engine-bay',
      [0.5, 0.8, 1.2],
      ['battery-off'],
      'first-power',
      { ...needs(['J-1', 'J-2', 'J-8']), cautions: [BATTERY] },
    ],
    [
      'J-27',
      'First power through a lamp',
      'battery-tray',
      [0.5, 0.8, 1.5],
      ['battery-on'],
      'first-power',
      { ...needs(['J-3', 'J-4', 'J-8', 'J-9', 'J-10', 'J-12', 'J-22', 'J-26']), cautions: [BATTERY] },
    ],
    [
      'J-28',
      'Fuses in one at a time',
      'dash',
      [0.6, 1, 1.6],
      ['battery-on', 'dash-off'],
      'first-power',
      needs(['J-27']),
    ],
    [
      'J-29',
      'Fit the radiator and its rubber feet',
      'nose',
      [0.8, 1.3, 2],
      ['front-panel', 'coolant-out'],
      'first-start',
      { status: 'doing', spent: hours(0.5) },
    ],
    ['J-30', 'Fit the fan and cowl', 'nose', [0.5, 0.8, 1.3], ['front-panel'], 'first-start', needs(['J-29'])],
    ['J-31', 'Fit the charge cooler radiator', 'nose', [0.8, 1.2, 2], ['front-panel'], 'first-start'],
    [
      'J-32',
      'Fit the charge cooler pump and hoses',
      'nose',
      [0.7, 1.1, 1.8],
      ['front-panel'],
      'first-start',
      needs(['J-31']),
    ],
    [
      'J-33',
      'Change the charge cooler core',
      'on-engine',
      [1, 1.8, 3],
      ['inlet-off'],
      'first-drive',
      needs([], ['charge-core']),
    ],
    [
      'J-34',
      'Bleed the charge cooler circuit',
      'nose',
      [0.3, 0.5, 1],
      ['bonnet-up'],
      'first-start',
      needs(['J-32'], ['coolant']),
    ],
    ['J-35', 'Make the coolant hoses to the heater', 'bulkhead', [0.6, 1, 1.8], ['coolant-out'], 'first-start'],
    [
      'J-36',
      'Fill and bleed the engine coolant',
      'engine-bay',
      [0.5, 0.8, 1.3],
      ['bonnet-up'],
      'first-start',
      needs(['J-29', 'J-35'], ['coolant']),
    ],
    [
      'J-37',
      'Pressure-hold test of the cooling system, cold',
      'engine-bay',
      [0.4, 0.6, 1],
      ['bonnet-up'],
      'first-start',
      needs(['J-36']),
    ],
    ['J-38', 'Gauge sender in the cylinder head', 'on-engine', [0.2, 0.3, 0.6], ['coolant-out'], 'first-start'],
    [
      'J-39',
      'Clean the tank and look inside',
      'tank-bay',
      [0.8, 1.5, 3],
      ['tank-out'],
      'first-start',
      { cautions: [PETROL] },
    ],
    [
      'J-40',
      'Fit the pump and swirl pot in the tank',
      'tank-bay',
      [1, 1.8, 3],
      ['tank-out'],
      'first-start',
      { ...needs(['J-39']), cautions: [PETROL] },
    ],
    [
      'J-41',
      'Fit the rollover valve and vent line',
      'tank-bay',
      [0.6, 1, 1.6],
      ['tank-out'],
      'first-start',
      { ...needs(['J-39'], ['rollover-valve']), cautions: [PETROL] },
    ],
    ['J-42', 'Calibrate the level sender on the bench', 'tank-bay', [0.5, 0.8, 1.2], ['tank-out'], 'inspection'],
    [
      'J-43',
      'Run the feed line along the left sill',
      'underside',
      [1.2, 2, 3.2],
      ['stands'],
      'first-start',
      { ...needs([], ['hose-fuel']), cautions: [PETROL, LIFTING] },
    ],
    [
      'J-44',
      'Run the return line',
      'underside',
      [1, 1.6, 2.6],
      ['stands'],
      'first-start',
      { ...needs(['J-43']), cautions: [PETROL, LIFTING] },
    ],
    [
      'J-45',
      'Fit the fuel filter',
      'underside',
      [0.3, 0.5, 0.8],
      ['stands', 'tank-empty'],
      'first-start',
      { ...needs(['J-43'], ['fuel-filter']), cautions: [PETROL] },
    ],
    [
      'J-46',
      'Fit the canister and purge line',
      'engine-bay',
      [0.6, 1, 1.7],
      ['bonnet-up'],
      'first-drive',
      { ...needs(['J-41'], ['canister']), cautions: [PETROL] },
    ],
    [
      'J-47',
      'Leak test of the rail',
      'on-engine',
      [0.4, 0.6, 1],
      ['battery-on'],
      'first-start',
      { ...needs(['J-40', 'J-44', 'J-45', 'J-28', 'J-48'], ['extinguisher']), cautions: [PETROL] },
    ],
    [
      'J-48',
      'Fit the larger injectors',
      'on-engine',
      [0.8, 1.2, 2],
      ['inlet-off'],
      'first-start',
      { ...needs([], ['injectors-large']), finding: 'injector-duty:sheet/fuel', cautions: [PETROL] },
    ],
    [
      'J-49',
      'Check the inlet for leaks with smoke',
      'on-engine',
      [0.5, 0.8, 1.2],
      ['bonnet-up'],
      'first-start',
      needs(['J-48']),
    ],
    ['J-50', 'Fit the knock sensor with its torque marked', 'on-engine', [0.2, 0.3, 0.5], ['inlet-off'], 'first-start'],
    [
      'J-51',
      'Wire the crankshaft sensor, screened',
      'on-engine',
      [0.5, 0.8, 1.3],
      ['bonnet-up'],
      'first-start',
      needs(['J-14']),
    ],
    ['J-52', 'Wire the coils', 'on-engine', [0.6, 0.9, 1.5], ['bonnet-up'], 'first-start', needs(['J-13'])],
    ['J-53', 'Turbocharger oil feed', 'on-engine', [0.6, 1, 1.8], ['turbo-shield-off'], 'first-start'],
    [
      'J-54',
      'Turbocharger oil drain with fall all the way',
      'on-engine',
      [0.8, 1.3, 2.2],
      ['turbo-shield-off', 'stands'],
      'first-start',
      { cautions: [LIFTING] },
    ],
    [
      'J-55',
      'Downpipe and gasket',
      'on-engine',
      [0.8, 1.4, 2.5],
      ['turbo-shield-off', 'stands'],
      'first-start',
      needs([], ['exhaust-gasket']),
    ],
    [
      'J-56',
      'Lambda boss welded and sensor fitted',
      'underside',
      [0.6, 1, 1.6],
      ['stands'],
      'first-start',
      { ...needs(['J-55']), cautions: ['welding'] },
    ],
    [
      'J-57',
      'Heat shield between downpipe and loom',
      'on-engine',
      [0.5, 0.9, 1.5],
      ['turbo-shield-off'],
      'first-drive',
      needs(['J-55']),
    ],
    [
      'J-58',
      'Silencer and tailpipe',
      'underside',
      [1.2, 2, 3.5],
      ['stands'],
      'inspection',
      needs(['J-55'], ['silencer']),
    ],
    [
      'J-59',
      'Oil in, filter on',
      'on-engine',
      [0.3, 0.4, 0.6],
      ['bonnet-up'],
      'first-start',
      needs(['J-53', 'J-54'], ['oil']),
    ],
    [
      'J-60',
      'Oil pressure while cranking, no fuel',
      'on-engine',
      [0.3, 0.4, 0.8],
      ['battery-on'],
      'first-start',
      needs(['J-59', 'J-28']),
    ],
    [
      'J-61',
      'Trigger pattern and polarity',
      'on-engine',
      [0.5, 0.8, 1.5],
      ['battery-on'],
      'first-start',
      needs(['J-51', 'J-28']),
    ],
    [
      'J-62',
      'Order of coils and injectors',
      'on-engine',
      [0.4, 0.6, 1],
      ['battery-on'],
      'first-start',
      needs(['J-52', 'J-48', 'J-28']),
    ],
    [
      'J-63',
      'Pedal and throttle plausibility',
      'right-footwell',
      [0.4, 0.6, 1],
      ['battery-on'],
      'first-start',
      needs(['J-28', 'J-64']),
    ],
    ['J-64', 'Mount the electronic pedal', 'right-footwell', [0.8, 1.3, 2.2], ['dash-off'], 'first-start'],
    [
      'J-65',
      'First start',
      'engine-bay',
      [0.5, 1, 2],
      ['battery-on'],
      'first-start',
      {
        ...needs(['J-36', 'J-47', 'J-60', 'J-61', 'J-62', 'J-63'], ['extinguisher']),
        cautions: [PETROL, 'hot coolant', 'moving parts'],
      },
    ],
    ['J-66', 'Base timing by lamp', 'engine-bay', [0.3, 0.4, 0.7], ['battery-on'], 'first-drive', needs(['J-65'])],
    [
      'J-67',
      'Fit the propshaft and check its joint angles',
      'underside',
      [0.8, 1.3, 2.2],
      ['stands'],
      'first-drive',
      { ...needs([], ['propshaft']), cautions: [LIFTING] },
    ],
    [
      'J-68',
      'Gearbox mounting and clearance in the tunnel',
      'underside',
      [1, 1.6, 2.8],
      ['gearbox-down'],
      'first-drive',
      { cautions: [LIFTING] },
    ],
    ['J-69', 'Reverse switch and its wire', 'underside', [0.3, 0.5, 0.8], ['gearbox-down'], 'inspection'],
    ['J-70', 'Road speed sensor on the gearbox', 'underside', [0.3, 0.5, 0.9], ['gearbox-down'], 'first-drive'],
    [
      'J-71',
      'Front brake hoses',
      'engine-bay',
      [0.6, 1, 1.6],
      ['front-wheels-off'],
      'first-drive',
      { ...needs([], ['brake-hose-set']), cautions: [BRAKES] },
    ],
    [
      'J-72',
      'Rear brake hose',
      'tank-bay',
      [0.4, 0.6, 1],
      ['rear-wheels-off'],
      'first-drive',
      { ...needs([], ['brake-hose-set']), cautions: [BRAKES] },
    ],
    [
      'J-73',
      'Bleed the brakes',
      'underside',
      [0.6, 1, 1.6],
      ['front-wheels-off', 'rear-wheels-off'],
      'first-drive',
      { ...needs(['J-71', 'J-72'], ['brake-fluid']), cautions: [BRAKES] },
    ],
    [
      'J-74',
      'Servo vacuum line with its check valve',
      'bulkhead',
      [0.4, 0.6, 1],
      ['bonnet-up'],
      'first-drive',
      { cautions: [BRAKES] },
    ],
    [
      'J-75',
      'Pedal force and leak check, engine stopped and running',
      'right-footwell',
      [0.4, 0.6, 1],
      ['battery-on'],
      'first-drive',
      { ...needs(['J-65', 'J-73', 'J-74']), cautions: [BRAKES] },
    ],
    [
      'J-76',
      'Brake lamp switch set',
      'right-footwell',
      [0.2, 0.3, 0.5],
      ['dash-off'],
      'first-drive',
      { cautions: [BRAKES] },
    ],
    ['J-77', 'Rear lamps and their earths', 'rear', [0.8, 1.2, 2], ['rear-lamps-off'], 'inspection'],
    ['J-78', 'Number plate lamp', 'rear', [0.2, 0.3, 0.5], ['rear-lamps-off'], 'inspection'],
    ['J-79', 'Set the headlamps', 'nose', [0.3, 0.5, 0.8], ['battery-on'], 'inspection', needs(['J-21'])],
    ['J-80', 'Wiper motor and linkage', 'engine-bay', [0.6, 1, 1.6], ['bonnet-up'], 'inspection'],
    ['J-81', 'Washer bottle and pump', 'engine-bay', [0.3, 0.4, 0.7], ['bonnet-up'], 'inspection'],
    [
      'J-82',
      'Heater blower and its ducts',
      'dash',
      [0.6, 1, 1.6],
      ['dash-off'],
      'inspection',
      { status: 'done', spent: hours(1.4) },
    ],
    [
      'J-83',
      'Configure the tachometer output',
      'left-footwell',
      [0.2, 0.3, 0.6],
      ['battery-on'],
      'inspection',
      { ...needs(['J-28']), finding: 'output-unconfigured:outputs/out-tachometer' },
    ],
    ['J-84', 'Dash panel lamps and gauges', 'dash', [0.8, 1.3, 2], ['dash-off'], 'inspection'],
    ['J-85', 'Corner weights', 'underside', [0.6, 1, 1.5], ['battery-on'], 'inspection', needs(['J-86'])],
    [
      'J-86',
      'Drive one kilometre and look at everything',
      'engine-bay',
      [0.8, 1.2, 2],
      ['battery-on'],
      'first-drive',
      needs(['J-65', 'J-66', 'J-67', 'J-68', 'J-75']),
    ],
    [
      'J-87',
      'Noise and emissions before the inspection',
      'underside',
      [0.8, 1.2, 2],
      ['battery-on'],
      'inspection',
      needs(['J-58', 'J-86']),
    ],
    ['J-88', 'Photograph every earth and joint for the book', 'engine-bay', [0.4, 0.6, 1], ['bonnet-up'], 'inspection'],
  ]
  for (const [id, title, zone, [least, likely, most], accesses, milestone, more] of rows)
    put('jobs', {
      id,
      title,
      zone,
      time: { least: hours(least), likely: hours(likely), most: hours(most) },
      accesses: [...accesses],
      milestone,
      status: 'to do',
      ...more,
    })
}
