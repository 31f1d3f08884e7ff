import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'

/** The list of built files, so that the phone's worker can keep them all, those loaded late included. */
const listFiles = (): Plugin => ({
  name: 'list-files',
  // Last: the script of a chunk of styles alone is in the bundle until then, and never written.
  generateBundle: {
    order: 'post',
    handler(_options, bundle) {
      const files = Object.keys(bundle).filter((file) => file.startsWith('assets/'))
      this.emitFile({ type: 'asset', fileName: 'files.json', source: JSON.stringify(files.sort()) })
    },
  },
})

export default defineConfig({
  root: 'src/web',
  base: './',
  plugins: [react(), listFiles()],
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    rollupOptions: {
      input: { index: 'src/web/index.html', 'service-worker': 'src/web/phone/serviceWorker.ts' },
      output: {
        // A worker keeps what lies beside or beneath it, so it stands at the root under a name that stays.
        entryFileNames: ({ name }) => (name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4747' } },
})
