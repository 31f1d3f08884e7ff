/** First power and first start as gates: the door. */
export { canClose, judgeGates } from './judge.ts'
export { closeGate, evidenceEdit, openAgain, referTo, type Said, sayOf, takeBack, takeFigure } from './take.ts'
export type * from './types.ts'
