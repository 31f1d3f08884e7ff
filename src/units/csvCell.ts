/**
 * Text as a cell of a CSV file that a spreadsheet opens without running anything: a leading = + - @ would be taken for a
 * formula, an apostrophe makes it text. Quoted where the text holds a comma, a quotation mark or a line end (RFC 4180).
 */
export const csvCell = (text: string): string => {
  const guarded = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\n\r]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded
}
