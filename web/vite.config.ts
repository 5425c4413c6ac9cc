import { readFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

/// Writes sw.js: the service worker, told which files make up the app and a name for this set of them.
function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    generateBundle(_options, bundle) {
      const files = Object.keys(bundle).filter((name) => !name.endsWith('.map') && name !== 'sw.js');
      const all = ['./', 'manifest.webmanifest', 'icon.svg', ...files.filter((f) => f !== 'index.html')];
      const version = createHash('sha256').update(all.join('\n')).update(String(Object.values(bundle).map((b) => ('code' in b ? b.code : b.source)).join(''))).digest('hex').slice(0, 12);
      const source = readFileSync(new URL('./src/service-worker.js', import.meta.url), 'utf8')
        .replace('__VERSION__', version)
        .replace('__FILES__', JSON.stringify(all));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

export default defineConfig({
  base: './', // any folder of any web host
  plugins: [svelte(), offline()],
  resolve: { alias: { '@wasm': new URL('../wasm', import.meta.url).pathname, '@built': new URL('../build/wasm', import.meta.url).pathname } },
  worker: { format: 'es' },
  server: { fs: { allow: ['..'] } },
  build: { outDir: '../build/site', emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 700, modulePreload: { polyfill: false } },
  test: { include: ['src/**/*.test.ts'] },
} as Parameters<typeof defineConfig>[0]);
