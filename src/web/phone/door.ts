/** Through which door this page came: this machine's own, or the home network. */
export const onThisMachine = (hostname = location.hostname): boolean =>
  hostname === '127.0.0.1' || hostname === 'localhost' || hostname === '[::1]'
