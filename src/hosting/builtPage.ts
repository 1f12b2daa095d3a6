/** What the build adds to the page: its content policy, its icons, what installs it, and what keeps it without a network. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin, PluginOption } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { CONTENT_POLICY } from './contentPolicy.ts';

const icons = fileURLToPath(new URL('./icons/', import.meta.url));
const IS_ICON = /\.(svg|png)$/;

/** as `--paper` in the light */
const PAPER = '#efe9dc';

export function builtPage(): PluginOption[] {
  return [contentPolicy(), iconFiles(), keptOffline()];
}

/** First in the head: what stands before it would be free of it. */
function contentPolicy(): Plugin {
  return {
    name: 'crosshead:content-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_POLICY },
        injectTo: 'head-prepend',
      },
    ],
  };
}

/** Under the addresses that the manifest names; in development the page takes its icon from where it lies. */
function iconFiles(): Plugin {
  return {
    name: 'crosshead:icons',
    apply: 'build',
    transformIndexHtml: (html) => html.replace('./src/hosting/icons/', './icons/'),
    generateBundle() {
      for (const name of readdirSync(icons).filter((file) => IS_ICON.test(file)))
        this.emitFile({ type: 'asset', fileName: `icons/${name}`, source: readFileSync(join(icons, name)) });
    },
  };
}

function keptOffline(): PluginOption {
  let outDir = '';
  return [
    {
      name: 'crosshead:out-dir',
      apply: 'build',
      configResolved(config) {
        outDir = resolve(config.root, config.build.outDir);
      },
    },
    VitePWA({
      strategies: 'injectManifest',
      srcDir: 'src/hosting/worker',
      filename: 'serviceWorker.ts',
      // the page does that itself (`src/ui/page/createNewVersion`), with no script of the plugin's
      injectRegister: false,
      injectManifest: {
        rollupFormat: 'iife',
        // everything: the example kit too, or the first example without a network would need one
        globPatterns: ['**/*'],
        globIgnores: ['serviceWorker.js'],
        maximumFileSizeToCacheInBytes: 8e6,
        // a file that isn't of this build, byte for byte, is not taken: a version is whole, or isn't there
        manifestTransforms: [
          async (entries) => ({
            manifest: entries.map((entry) => ({ ...entry, integrity: integrityOf(join(outDir, entry.url)) })),
          }),
        ],
      },
      manifest: {
        name: 'Crosshead',
        short_name: 'Crosshead',
        description: 'Polarity and alignment of two mics on one drum, measured while it is played.',
        lang: 'en',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: PAPER,
        theme_color: PAPER,
        icons: [
          { src: 'icons/icon.svg', sizes: 'any', type: 'image/svg+xml' },
          { src: 'icons/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icons/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: 'icons/icon-full-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
    }),
  ];
}

const integrityOf = (file: string): string =>
  `sha384-${createHash('sha384').update(readFileSync(file)).digest('base64')}`;
