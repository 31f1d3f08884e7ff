import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    // Two at once: the machines that check this have two cores, and a browser waits as often as it works.
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          include: ['src/**/*.test.{ts,tsx}', 'demo/**/*.test.ts', 'test/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 10_000 } },
        },
      },
    ],
  },
})
