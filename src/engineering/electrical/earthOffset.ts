/**
 * What a raised sensor return does to the voltage that the controller reads, all against the controller's sensor earth.
 *   voltage          V = v + dV                          a sensor with a supply of its own
 *   ratio of supply  V = dV + x·(Vref − dV)              fed from the controller's reference
 *   resistance       V = dV + (Vref − dV)·R/(R + Rp)     pull-up Rp to the reference
 *   v, x, R  electrical side of the sensor's curve   V, 1, Ω
 *   dV       sensor's return above the sensor earth  V   −20 … 20
 *   Vref     controller's reference                  V   > 0
 * and back, as the controller does it: x = V/Vref, R = Rp·V/(Vref − V). NaN where the controller cannot tell (V ≥ Vref).
 * Source: voltage divider, Ohm's law; 0.1 V on a 0.5–4.5 V sensor is 2.5 % of its span.
 */
export type SensorForm = 'voltage' | 'ratio of supply' | 'resistance'

/** The electrical figure that the controller takes the sensor to have. */
export const misread = (
  form: SensorForm,
  electrical: number,
  offset: number,
  reference: number,
  pullUp: number,
): number => {
  if (form === 'voltage') return electrical + offset
  const share = form === 'resistance' ? electrical / (electrical + pullUp) : electrical
  const voltage = offset + share * (reference - offset)
  if (form === 'ratio of supply') return voltage / reference
  return voltage >= reference ? Number.NaN : (pullUp * voltage) / (reference - voltage)
}

/** Physical figure on a curve, straight between its points and on along its first and last stretch. */
export const onCurve = (curve: readonly (readonly [number, number])[], electrical: number): number => {
  const points = [...curve].sort((a, b) => a[0] - b[0])
  const last = points.length - 2
  let i = 0
  while (i < last && points[i + 1]![0] < electrical) i += 1
  const [x0, y0] = points[i]!
  const [x1, y1] = points[i + 1]!
  return y0 + ((electrical - x0) * (y1 - y0)) / (x1 - x0)
}

/** Electrical figure at which a curve reads `physical`; undefined outside it. */
export const backOnCurve = (curve: readonly (readonly [number, number])[], physical: number): number | undefined => {
  const points = [...curve].sort((a, b) => a[0] - b[0])
  for (let i = 0; i + 1 < points.length; i += 1) {
    const [x0, y0] = points[i]!
    const [x1, y1] = points[i + 1]!
    if (y1 !== y0 && physical >= Math.min(y0, y1) && physical <= Math.max(y0, y1))
      return x0 + ((physical - y0) * (x1 - x0)) / (y1 - y0)
  }
  return undefined
}
