/** Oil, exhaust and cabin services: three sheets, every figure of them optional. */
import { z } from 'zod'
import { id } from './electrical.ts'
import { measure } from './measure.ts'
import { name } from './words.ts'

const speedAndPressure = z.tuple([measure('angularSpeed', 'non-negative'), measure('pressureGauge', 'non-negative')])

export const oilSheet = z.strictObject({
  capacity: measure('volume', 'positive').optional(),
  hotIdlePressure: measure('pressureGauge', 'positive').optional(),
  pressures: z.array(speedAndPressure).optional().describe('hot oil pressure against engine speed'),
  leastPressures: z
    .array(speedAndPressure)
    .optional()
    .describe('least hot pressure by engine speed, by the engine’s maker'),
  relief: measure('pressureGauge', 'positive').optional().describe('at which the relief valve opens'),
  grade: z
    .enum(['16', '20', '30', '40', '50', '60'])
    .optional()
    .describe('second number of the grade by SAE J300: 40 of a 5W-40'),
  viscosity40: measure('kinematicViscosity', 'positive').optional().describe('at 40 °C, by the oil’s data sheet'),
  viscosity100: measure('kinematicViscosity', 'positive').optional().describe('at 100 °C, by the oil’s data sheet'),
  density: measure('density', 'positive').optional().describe('at 15 °C, by the oil’s data sheet'),
  hotTemperature: measure('temperature').optional().describe('in the sump when hot, at which the pressures were read'),
  coldTemperature: measure('temperature').optional().describe('at the coldest start'),
  flow: measure('volumeFlow', 'positive').optional().describe('through the engine, hot, at full load'),
  heat: measure('power', 'positive').optional().describe('that the oil takes up at full load'),
  turboFeedBore: measure('length', 'positive').optional(),
  turboFeedLength: measure('length', 'positive').optional(),
  turboRestrictor: measure('length', 'positive')
    .optional()
    .describe('bore of a restrictor in the feed; none: no restrictor'),
  turboNeed: measure('volumeFlow', 'positive').optional().describe('oil that the turbocharger takes hot, by its maker'),
  turboLeastPressure: measure('pressureGauge', 'positive')
    .optional()
    .describe('at its inlet at full load, by its maker'),
  turboMostPressure: measure('pressureGauge', 'positive').optional().describe('at its inlet, by its maker'),
  turboDrainBore: measure('length', 'positive').optional(),
  turboOutletBore: measure('length', 'positive').optional().describe('of the outlet in its housing'),
  turboDrainLength: measure('length', 'positive').optional(),
  turboDrainFall: measure('length')
    .optional()
    .describe('from the turbocharger’s outlet down to where the drain enters'),
  turboDrainAbove: measure('length')
    .optional()
    .describe('where the drain enters, above the oil’s level; negative: below it'),
  breather: z.enum(['open', 'to the intake', 'catch tank']).optional(),
  breatherBore: measure('length', 'positive').optional().describe('at its narrowest'),
  breatherLength: measure('length', 'positive').optional(),
  blowByShare: measure('ratio', 'positive').optional().describe('of the engine’s air, where known'),
  crankcaseLimit: measure('pressureDifference', 'positive')
    .optional()
    .describe('greatest pressure in the crankcase over the outside, by the engine’s maker'),
  catchTankVent: z.enum(['to the intake', 'open']).optional(),
  catchTankDrain: z.enum(['back to the sump', 'emptied by hand']).optional(),
})

export const exhaustSheet = z.strictObject({
  bore: measure('length', 'positive').optional().describe('of the pipe, where it is one'),
  length: measure('length', 'positive').optional(),
  fittings: measure('ratio', 'non-negative').optional().describe('sum of losses of bends, in velocity heads'),
  gasTemperature: measure('temperature').optional().describe('of the gas in the pipe at full load'),
  parts: z
    .array(
      z.strictObject({
        id,
        name,
        bore: measure('length', 'positive').optional(),
        length: measure('length', 'positive').optional(),
        fittings: measure('ratio', 'non-negative').optional().describe('sum of losses of bends, in velocity heads'),
        gasTemperature: measure('temperature').optional().describe('at full load, where not that of the whole pipe'),
        loss: measure('pressureDifference', 'positive')
          .optional()
          .describe('of a catalyst or silencer at the gas flow below, by its maker or as measured'),
        lossFlow: measure('massFlow', 'positive').optional().describe('gas flow of that loss, as hot as in use'),
      }),
    )
    .optional()
    .describe('from turbocharger or manifold to the end, in the order of the gas'),
  backPressure: measure('pressureGauge', 'non-negative')
    .optional()
    .describe('behind turbocharger or manifold, before all of its parts, at full load'),
  backPressureLimit: measure('pressureGauge', 'positive').optional().describe('by the maker of engine or turbocharger'),
  surface: measure('temperature').optional().describe('of the hottest pipe’s surface at full load'),
  outside: measure('length', 'positive').optional().describe('outside diameter of the pipe'),
  emissivity: measure('ratio', 'positive').optional().describe('of its surface: scaled steel 0.8, polished 0.2'),
  near: z
    .array(
      z.strictObject({
        name,
        distance: measure('length', 'positive'),
        shielded: z.boolean().optional(),
        what: z.enum(['wires', 'fuel', 'brakes', 'other']).optional(),
        run: id.optional().describe('run of the loom that it is'),
        zone: id.optional().describe('whose air is about it, where it is no run of the loom'),
        surface: measure('temperature').optional().describe('of the hot metal there, where not as the sheet’s'),
        outside: measure('length', 'positive').optional().describe('diameter of the hot pipe there'),
        diameter: measure('length', 'positive').optional().describe('outside diameter of the cable, hose or pipe'),
        limit: measure('temperature').optional().describe('that it stands for long, by its maker'),
      }),
    )
    .optional()
    .describe('loom, pipes and hoses close to hot metal'),
})

export const cabinSheet = z.strictObject({
  heater: z
    .strictObject({
      state: z
        .enum(['in the circuit', 'shut off by a tap', 'matrix bridged', 'connections blanked'])
        .optional()
        .describe('how coolant gets past or through the heater'),
      bypass: z.boolean().optional().describe('the engine’s coolant bypass runs through the heater circuit'),
      coolantFlow: measure('volumeFlow', 'positive')
        .optional()
        .describe('coolant through the matrix, at the speed below'),
      flowSpeed: measure('angularSpeed', 'positive').optional().describe('engine speed of that flow'),
      airFlow: measure('volumeFlow', 'positive').optional().describe('air through the matrix, blower at its highest'),
      conductance: measure('heatCapacityRate', 'positive').optional().describe('of the matrix at these flows'),
      wanted: measure('power', 'positive').optional().describe('heat that cabin and screen ask for'),
      outside: measure('temperature').optional().describe('of the air drawn in on the coldest day'),
    })
    .optional(),
  idleSpeed: measure('angularSpeed', 'positive').optional(),
  idleTorque: measure('torque', 'positive')
    .optional()
    .describe('that the engine can give at idle without losing speed, over what it runs itself with'),
  steering: z
    .strictObject({
      kind: z.enum(['none', 'by belt', 'electric']).optional().describe('what helps the steering'),
      pumpFlow: measure('volumeFlow', 'positive').optional().describe('of the pump at idle'),
      relief: measure('pressureDifference', 'positive').optional().describe('pressure of its relief valve'),
      efficiency: measure('ratio', 'positive').optional(),
      crankPulley: measure('length', 'positive').optional().describe('diameter of the pulley on the crankshaft'),
    })
    .optional(),
})
