import { BATTERY_CAUTION, FUEL_CAUTION, QUALIFIED_FUEL } from '../make.ts'
import { load, resistanceLaw } from './parts.ts'
import { ask, box, earth, feed, insulation, place } from './questions.ts'
import type { Pattern } from './types.ts'

export const levelSender: Pattern = {
  id: 'level-sender',
  name: 'Level sender and gauge',
  purpose: 'Fuel gauge in series with the sender in the tank, fed with the ignition.',
  questions: [
    place('gauge', 'Where the gauge sits'),
    place('sender', 'Where the sender sits'),
    ask(
      'gaugeResistance',
      { type: 'quantity', kind: 'resistance' },
      'Resistance of the gauge',
      'measured, such as 60 Ω',
    ),
    ask(
      'senderResistance',
      { type: 'quantity', kind: 'resistance' },
      'Resistance of the sender now',
      'measured at its plug, such as 40 Ω',
    ),
    feed('ignition'),
    earth('earth', 'Earth stud near the tank'),
    box,
    insulation,
  ],
  cautions: [FUEL_CAUTION, QUALIFIED_FUEL, BATTERY_CAUTION],
  draw: (pen, answers) => {
    pen.circuit('fuel-gauge', 'Fuel gauge')
    const [inGauge, inSender] = [
      answers.quantity('resistance', 'gaugeResistance').value,
      answers.quantity('resistance', 'senderResistance').value,
    ]
    const gauge = pen.device(
      'fuel-gauge',
      'Fuel gauge',
      answers.text('gauge'),
      { kind: 'gauge' },
      { 15: 'supply', G: 'sender' },
      {
        loads: [load('gauge', '15', 'G', resistanceLaw(inGauge))],
      },
    )
    const sender = pen.device(
      'fuel-sender',
      'Fuel level sender',
      answers.text('sender'),
      { kind: 'sensor' },
      { G: 'sender', 31: 'earth' },
      {
        loads: [load('sender', 'G', '31', resistanceLaw(inSender))],
      },
    )
    const current = pen.chargeVolts / (inGauge + inSender)
    const fuse = pen.fuse(
      'fuse-fuel-gauge',
      'Fuel gauge',
      answers.text('feed'),
      answers.has('box') ? answers.text('box') : undefined,
      { current },
      'BK',
    )
    pen.wire(`${fuse}.2`, `${gauge}.15`, 'BK', current, { behind: fuse })
    pen.wire(`${gauge}.G`, `${sender}.G`, 'BU/YE', current)
    pen.wire(`${sender}.31`, pen.stud(answers.text('earth')), 'BN', current)
    const stalled = pen.chargeVolts / inGauge
    pen.say(
      `${(current * 1e3).toFixed(0)} mA through gauge and sender; with the sender’s wire chafed to the body ${(stalled * 1e3).toFixed(0)} mA, which the gauge limits. The feed goes to the gauge and never straight to the tank. Take gauge and sender as a pair of one maker: whether this pair may be in a tank is theirs to say. The sender has an earth wire of its own: hoses and rust are no return.`,
    )
  },
}
