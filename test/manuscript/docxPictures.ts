/** The smallest bytes that pass for a picture of each format; only what a reader looks at is there. */

/** Characters up to U+00FF as bytes. */
export function bytesOf(text: string): Uint8Array {
  return Uint8Array.from(text, (each) => each.charCodeAt(0));
}

function fill(size: number, start: string, write: (view: DataView) => void): Uint8Array {
  const bytes = new Uint8Array(size);
  bytes.set(bytesOf(start));
  write(new DataView(bytes.buffer));
  return bytes;
}

export function png(width: number, height: number): Uint8Array {
  return fill(33, '\x89PNG\r\n\x1a\n\0\0\0\rIHDR', (view) => {
    view.setUint32(16, width);
    view.setUint32(20, height);
  });
}

/** With an application segment before the frame header, as cameras write. */
export function jpeg(width: number, height: number): Uint8Array {
  return fill(40, '\xff\xd8\xff\xe1\0\x04ab\xff\xff\xc2\0\x11\x08', (view) => {
    view.setUint16(14, height);
    view.setUint16(16, width);
  });
}

export function gif(width: number, height: number): Uint8Array {
  return fill(13, 'GIF89a', (view) => {
    view.setUint16(6, width, true);
    view.setUint16(8, height, true);
  });
}

export function webp(kind: 'VP8 ' | 'VP8L' | 'VP8X', width: number, height: number): Uint8Array {
  return fill(32, `RIFF\0\0\0\0WEBP${kind}`, (view) => {
    if (kind === 'VP8L') view.setUint32(21, (width - 1) | ((height - 1) << 14), true);
    else if (kind === 'VP8 ') {
      view.setUint16(26, width, true);
      view.setUint16(28, height, true);
    } else {
      view.setUint32(24, width - 1, true);
      view.setUint32(27, height - 1, true);
    }
  });
}

export function svg(content = '<rect width="1" height="1"/>'): Uint8Array {
  return bytesOf(`<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg">${content}</svg>`);
}
