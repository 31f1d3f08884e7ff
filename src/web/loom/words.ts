/** Small lengths in millimetres, as a rule or a caliper reads them. */
export const millimetres = (metres: number): string => `${(metres * 1e3).toFixed(metres < 0.01 ? 1 : 0)} mm`
