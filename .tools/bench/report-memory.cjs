// Loaded before a program that is measured: leaves its greatest memory, kB, in the file that SOAPSTONE_BENCH names.
process.on('exit', () => {
  require('node:fs').writeFileSync(process.env.SOAPSTONE_BENCH, String(process.resourceUsage().maxRSS));
});
