/** A page to print, opened beside the workbench; it needs no server, so it is there without signal too. */
export const openPage = (html: string): void => {
  const address = URL.createObjectURL(new Blob([html], { type: 'text/html' }))
  window.open(address, '_blank', 'noopener')
  // The new window has long read it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
