/** The first-power sheet beside the page: it takes a second or more, and a phone must not stand still for it. */
import { FIRST_POWER, type TestSheet, testSheet } from '../../assess/testSheets/testSheet.ts'
import type { Build } from '../../model/build.ts'

const scope = self as unknown as {
  postMessage(message: { readonly id: number; readonly sheet: TestSheet }): void
  onmessage: ((event: { readonly data: { readonly id: number; readonly build: Build } }) => void) | null
}

scope.onmessage = ({ data: { id, build } }) => scope.postMessage({ id, sheet: testSheet(build, FIRST_POWER) })
