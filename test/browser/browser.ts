/** A browser, a build in a folder of its own and a server, for the tests and the pictures alike. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import chromiumFiles from '@sparticuz/chromium'
import { type Browser, chromium, type Page } from 'playwright-core'
import type { Build } from '../../src/model/build.ts'
import { startServer } from '../../src/server/start.ts'
import { openBuild, type Store } from '../../src/store/store.ts'

export const WIDTHS = { phone: { width: 390, height: 844 }, laptop: { width: 1280, height: 860 } } as const

export const startBrowser = async (): Promise<Browser> =>
  chromium.launch({
    executablePath: await chromiumFiles.executablePath(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  })

export interface Workbench {
  readonly address: string
  readonly store: Store
  readonly close: () => Promise<void>
}

/** The pages must have been built before: the tests look at what people get. */
export const serveBuild = async (
  build: Build | undefined,
  homeAddresses?: () => readonly string[],
): Promise<Workbench> => {
  const parent = mkdtempSync(join(tmpdir(), 'swapwright-browser-'))
  const store = openBuild(join(parent, 'build'), { create: build?.name ?? 'My build' })
  if (build) store.replace(build, 'Demo')
  const server = await startServer({ store, port: 0, ...(homeAddresses ? { homeAddresses } : {}) })
  return {
    address: server.address,
    store,
    close: async () => {
      await server.close()
      store.close()
      rmSync(parent, { recursive: true, force: true })
    },
  }
}

export interface OpenPage {
  readonly page: Page
  /** Whatever the browser complained of. */
  readonly complaints: string[]
  readonly close: () => Promise<void>
}

export const openPage = async (
  browser: Browser,
  address: string,
  size: { readonly width: number; readonly height: number },
  colorScheme: 'light' | 'dark' = 'light',
): Promise<OpenPage> => {
  const context = await browser.newContext({ locale: 'en-US', viewport: size, colorScheme })
  const page = await context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(address)
  return { page, complaints, close: () => context.close() }
}

/** How far the page reaches beyond its window to the right, px. */
export const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

/** Text smaller than 12 px that a person can see. */
export const smallText = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found: string[] = []
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const parent = node.parentElement
      if (!parent || !node.textContent?.trim() || parent.getClientRects().length === 0) continue
      if (Number.parseFloat(getComputedStyle(parent).fontSize) < 12) found.push(node.textContent.trim())
    }
    return found
  })
