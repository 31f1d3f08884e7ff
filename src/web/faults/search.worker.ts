/** The search engine beside the page. */
import { type Answered, type Asked, searchEngine } from './searchEngine.ts'

const scope = self as unknown as {
  postMessage(said: Answered): void
  addEventListener(type: 'message', listener: (event: { readonly data: Asked }) => void): void
}
const ask = searchEngine((said) => scope.postMessage(said))
scope.addEventListener('message', ({ data }) => ask(data))
