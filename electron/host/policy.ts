/**
 * What a page of the window may do, as the headers of everything that is served to it. Electron's protocol and the loopback
 * server send the same.
 */

/**
 * The content security policy (CSP Level 3). `wasm-unsafe-eval` compiles the shaper and nothing else. The ebook proof
 * writes its document into an empty frame without scripts, which keeps this policy; `blob:` is for pictures that the window
 * draws itself.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "worker-src 'self'",
  "connect-src 'self'",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** For a picture of the book, which may be an SVG file of anyone's: opened by itself it can do nothing at all. */
export const PICTURE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox";

/** Headers of every answer. */
export const GUARDING_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), usb=(), serial=(), hid=()',
};
