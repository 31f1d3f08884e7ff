/** A bundled file asked for by its address. */
declare module '*?url' {
  const address: string
  export default address
}
