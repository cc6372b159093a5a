import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/bench/**'],
    globalSetup: ['tools/kernel.mjs'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Much of the time goes to programs that the tests start and wait for: two at a time keep two cores busy.
    maxWorkers: 2,
  },
});
