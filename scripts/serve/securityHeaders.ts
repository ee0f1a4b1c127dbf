/**
 * The policy that keeps footage on the machine: a page or worker of the app can talk to its own origin and to
 * nothing else. It goes out with every response, because a worker takes its policy from the headers of its own script.
 *
 * - `connect-src 'self'` stops every request elsewhere, among them the usage data that the pose library tries to send.
 * - `script-src 'wasm-unsafe-eval'` lets the wasm of the pose model compile; it allows no JavaScript from strings.
 * - `img-src`/`media-src blob:` are for pictures that the app itself makes.
 */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "worker-src 'self'",
    "connect-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' blob: data:",
    "media-src 'self' blob:",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};
