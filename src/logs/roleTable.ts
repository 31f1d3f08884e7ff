/**
 * What a channel can mean. Ranges of plausible values: common practice, no published source; they only rank guesses and
 * refuse nothing.
 */
import type { Kind } from '../units/kinds.ts'

export interface RoleSpec {
  readonly title: string
  readonly kind: Kind
  /** Whole words or abbreviations, in a name set in small letters with blanks. */
  readonly names: readonly RegExp[]
  readonly not?: RegExp
  /** SI values that a log usually stays within. */
  readonly range: readonly [number, number]
}

const spec = (
  title: string,
  kind: Kind,
  names: readonly RegExp[],
  range: readonly [number, number],
  not?: RegExp,
): RoleSpec => ({ title, kind, names, range, ...(not ? { not } : {}) })
const RPM = Math.PI / 30

export const ROLES = {
  engineSpeed: spec(
    'engine speed',
    'angularSpeed',
    [/^(rpm|engine ?(speed|rpm|revs?)|revs|motordrehzahl|drehzahl|r[eé]gime( moteur)?)$/],
    [0, 12000 * RPM],
    /turbo|wheel|fan|pump|target|limit|idle/,
  ),
  manifoldPressure: spec(
    'manifold pressure (absolute)',
    'pressureAbsolute',
    [
      /^(map|manifold( absolute)?( air)? pressure|inlet manifold pressure|intake manifold pressure|saugrohrdruck)$/,
      /\bmap\b/,
    ],
    [15e3, 450e3],
    /target|error|table|ignition map|temp/,
  ),
  throttle: spec(
    'throttle position',
    'ratio',
    [/^(tps|throttle( position| pos| angle)?|drosselklappe)$/, /\btps\b|\bthrottle\b/],
    [-0.02, 1.05],
    /target|error|rate|volt|raw|pedal/,
  ),
  pedal: spec(
    'accelerator pedal position',
    'ratio',
    [/\b(pedal|pps|app|accelerator)\b/],
    [-0.02, 1.05],
    /brake|clutch|volt|raw/,
  ),
  chargeTemperatureBefore: spec(
    'charge temperature before the cooler',
    'temperature',
    [
      /\b(pre|before|in(let)?( to)?|into) ?(charge ?|inter)?cooler\b/,
      /\b(charge|compressor|turbo)( air)? ?(out(let)?|discharge|exit)( temp(erature)?)?\b/,
      /\b(charge ?|inter)cooler (in(let)?|before|pre)\b/,
    ],
    [230, 520],
    /water|coolant|\bpress|target/,
  ),
  chargeTemperatureAfter: spec(
    'charge temperature after the cooler',
    'temperature',
    [
      /\b(post|after|out(let)?( of)?|out of) ?(charge ?|inter)?cooler\b/,
      /\b(charge ?|inter)cooler (out(let)?|after|post)\b/,
      /^(iat|act|mat|charge( air)? temp(erature)?|manifold( air)? temp(erature)?|(intake|inlet) air temp(erature)?|ansauglufttemperatur)$/,
    ],
    [230, 420],
    /water|coolant|\bpress|target|ambient|box/,
  ),
  ambientTemperature: spec(
    'ambient air temperature',
    'temperature',
    [
      /\b(ambient|outside|external)( air)? ?(temp(erature)?)?\b/,
      /^(aat|oat|air ?box temp(erature)?|umgebungstemperatur)$/,
    ],
    [230, 330],
    /\bpress|baro/,
  ),
  coolerWaterIn: spec(
    'water temperature into the charge cooler',
    'temperature',
    [
      /\b(charge ?|inter)?cooler (water|coolant)( in(let)?)?( temp(erature)?)?\b/,
      /\bwater (in(let)?|into)( (charge ?|inter)?cooler)?\b/,
      /\b(low temp|lt|charge) (circuit|loop)( (water|coolant))?\b/,
    ],
    [250, 370],
    /out(let)?\b|\bpress|level/,
  ),
  airFlow: spec(
    'air mass flow',
    'massFlow',
    [/^(maf|air ?(mass )?flow|mass air ?flow|air mass|luftmasse)$/, /\b(maf|air ?flow|airflow)\b/],
    [0, 0.8],
    /volt|raw|hz|error|target/,
  ),
  coolantTemperature: spec(
    'coolant temperature',
    'temperature',
    [
      /^(clt|ect|cts|coolant( temp(erature)?)?|engine (coolant )?temp(erature)?|water temp(erature)?|k[uü]hlmitteltemperatur)$/,
    ],
    [230, 410],
    /cooler|charge|\bpress|level|fan/,
  ),
  lambda: spec(
    'lambda',
    'ratio',
    [/^(lambda( ?1| value| bank ?1)?|λ|wideband|wbo2?|afr|air ?fuel( ratio)?)$/, /\blambda\b/],
    [0.5, 2],
    /target|corr|trim|error|volt|heater/,
  ),
  narrowBandVoltage: spec(
    'voltage of a narrow-band lambda sensor',
    'voltage',
    [/\b(narrow ?band|nbo2|ego|o2( sensor)?|lambda sensor)( ?\d)?( volt(s|age)?)?$/],
    [-0.1, 1.3],
    /wide|heater|corr|trim/,
  ),
  injectorPulseWidth: spec(
    'injector pulse width',
    'time',
    [
      /\b(inj(ector|ection)?( effective)?( open(ing)?)? ?(pulse ?width|pw|time|duration|on time)|pulse ?width|pw ?1?|ipw|einspritzzeit)\b/,
    ],
    [0, 0.05],
    /dead|ign|dwell|trim/,
  ),
  injectorDuty: spec(
    'injector duty',
    'ratio',
    [/\b(inj(ector)? ?(duty|dc)( cycle)?|duty ?cycle( inj)?|idc)\b/],
    [0, 1.2],
    /boost|wastegate|idle|fan|vvt|pwm/,
  ),
  batteryVoltage: spec(
    'battery voltage',
    'voltage',
    [
      /^(batt?(ery)?( ?(v(olt(s|age)?)?))?|vbat|ubatt|u batt|supply volt(s|age)?|system volt(s|age)?|batteriespannung)$/,
      /\bbatt?(ery)?\b/,
    ],
    [5, 17],
    /corr|comp|temp/,
  ),
  injectorVoltage: spec(
    'voltage at the injectors',
    'voltage',
    [/\binj(ector|ection)? ?(supply|rail)? ?volt(s|age)?\b/],
    [5, 17],
  ),
  pulseCount: spec(
    'number of pulses of a bench test',
    'ratio',
    [/^(pulses?|pulse count|number of pulses|shots)$/],
    [1, 1e6],
  ),
  fuelMass: spec('fuel mass of a bench test', 'mass', [/^((fuel )?mass|(fuel )?weight|delivered( mass)?)$/], [1e-5, 1]),
  fuelPressure: spec(
    'fuel pressure',
    'pressureGauge',
    [/\b(fuel( rail)? ?press(ure)?|rail press(ure)?|fp|kraftstoffdruck)\b/],
    [0, 1e6],
    /target|diff|delta/,
  ),
  fuelPressureDifference: spec(
    'pressure across the injectors',
    'pressureDifference',
    [
      /\b((diff(erential)?|delta) (fuel )?press(ure)?|fuel (diff(erential)?|delta) press(ure)?|inj(ector)? press(ure)? diff)\b/,
    ],
    [0, 1e6],
  ),
  fuelTemperature: spec('fuel temperature', 'temperature', [/\bfuel temp(erature)?\b/], [240, 360]),
  barometricPressure: spec(
    'barometric pressure',
    'pressureAbsolute',
    [/\b(baro(metric)?( press(ure)?)?|ambient press(ure)?|atm(ospheric)? press(ure)?)\b/],
    [60e3, 108e3],
  ),
  compressorPressure: spec(
    'pressure after the compressor',
    'pressureAbsolute',
    [/\b(compressor (out(let)?|discharge)|pre (throttle|cooler)|boost) ?press(ure)?\b/, /^boost$/],
    [60e3, 450e3],
    /target|duty/,
  ),
  vehicleSpeed: spec(
    'vehicle speed',
    'speed',
    [/^(vss|speed|vehicle ?speed|road ?speed|gps ?speed|geschwindigkeit)$/],
    [0, 85],
  ),
  oilPressure: spec('oil pressure', 'pressureGauge', [/\b(oil ?press(ure)?|öldruck)\b/], [0, 1.2e6]),
  oilTemperature: spec('oil temperature', 'temperature', [/\boil ?temp(erature)?\b/], [230, 430]),
  fuelTrim: spec(
    'closed-loop fuel trim',
    'ratio',
    [
      /\b((short|long)( term)? ?(fuel )?trim|stft|ltft|lambda corr(ection)?|ego corr(ection)?|fuel trim|closed ?loop (corr(ection)?|trim))\b/,
    ],
    [-0.5, 1.5],
  ),
  targetLambda: spec('target lambda', 'ratio', [/\b(lambda target|target lambda)\b/], [0.6, 1.4]),
  ignitionAngle: spec(
    'ignition angle',
    'angle',
    [/\b(ign(ition)? (angle|advance|timing)|spark advance|advance|z[uü]ndwinkel)\b/],
    [-0.7, 1.1],
    /corr|trim|retard/,
  ),
  fanState: spec(
    'electric fan',
    'ratio',
    [/^((engine |radiator |electric )?fan( ?1)?( output| duty| state)?)$/],
    [0, 1],
  ),
} as const satisfies Readonly<Record<string, RoleSpec>>

export type Role = keyof typeof ROLES
