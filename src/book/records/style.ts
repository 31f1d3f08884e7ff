/** The look of printed records. */
export const RECORD_STYLE = `
body { font: 10.5pt/1.4 serif; color: #1a1c1e; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1, h2 { line-height: 1.2; } h2 { border-bottom: 1px solid; margin-top: 1.6rem; break-after: avoid; font-size: 1.15rem; }
article { break-inside: avoid; margin: 0.7rem 0; } h3 { font-size: 1rem; margin: 0; } p { margin: 0.15rem 0; }
ul { margin: 0.2rem 0; padding-left: 1.2rem; } .cautions { list-style: none; border-left: 3px double; padding-left: 0.7rem; font-size: 0.88rem; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.6rem 0.25rem 0; border-bottom: 1px solid #999; }
tr { break-inside: avoid; } .small { font-size: 0.85rem; }
@page { margin: 16mm; }`
