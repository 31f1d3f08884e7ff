/**
 * One spelling for the look-alikes, so that a symbol is found however its keyboard wrote it: both micro signs, both
 * ohm signs, degree and ordinal signs, superscripts, typographic primes, dots and hyphens between units.
 */

/** Text with every kind of blank, minus, prime and plus-minus made one kind. Keeps case and order. */
export const plainText = (text: string): string =>
  text
    .replace(/[º˚]/g, '°')
    .replace(/[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    // A vulgar fraction is normalised to digits, which must not run into the whole number before it: 1½ is not 11/2.
    .replace(/(\d)([¼-¾⅐-⅞])/g, '$1 $2')
    // A raised exponent must not run into its ten either: 10⁵ is not 105.
    .replace(/10(?=[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹])/g, '10^')
    .normalize('NFKC')
    .replace(/\u2044/g, '/')
    .replace(/''/g, '"')
    .replace(/[\u2212\u2010-\u2014\uFE63]/g, '-')
    .replace(/\u2206/g, 'Δ')
    .replace(/\+\s*\/\s*-|\+-/g, '±')
    .replace(/\s+/g, ' ')
    .trim()

/** The key under which a unit symbol stands in the table. Case is kept: mΩ and MΩ are different. */
export const symbolKey = (symbol: string): string =>
  plainText(symbol)
    .replace(/μ/g, 'u')
    .replace(/Ω|ohms?/gi, 'ohm')
    .replace(/\/\s*(hours?|hrs?)\b/gi, '/h')
    .replace(/\/\s*(minutes?|mins?)\b/gi, '/min')
    .replace(/\/\s*(seconds?|secs?)\b/gi, '/s')
    .replace(/[\s·⋅∙•*.()^-]/g, '')
