/** The wire between window and host: what goes in comes out, however the stream is cut. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode, encode, FrameReader, frameOf, idleFrame } from '#host';

const text = fc.string({ unit: 'binary' });
const { message } = fc.letrec<{ message: unknown }>((tie) => ({
  message: fc.oneof(
    { depthSize: 'small' },
    fc.constant(null),
    fc.boolean(),
    fc.integer(),
    fc.double({ noNaN: true, noDefaultInfinity: true }).filter((each) => !Object.is(each, -0)),
    text,
    fc.uint8Array(),
    fc.array(tie('message')),
    fc.dictionary(
      text.filter((key) => key !== '__proto__'),
      tie('message'),
      { noNullPrototype: true },
    ),
  ),
}));

describe('the wire', () => {
  it('brings a message over as it was', () => {
    fc.assert(
      fc.property(message, (value) => {
        expect(decode(encode(value))).toStrictEqual(value);
      }),
    );
  });

  it('leaves out what is undefined', () => {
    expect(decode(encode({ a: 1, b: undefined }))).toStrictEqual({ a: 1 });
  });

  it('puts events together from any pieces', () => {
    fc.assert(
      fc.property(fc.array(message, { maxLength: 6 }), fc.integer({ min: 1, max: 9 }), (events, size) => {
        const stream = Buffer.concat([idleFrame(), ...events.flatMap((event) => [frameOf(event), idleFrame()])]);
        const reader = new FrameReader();
        const heard: unknown[] = [];
        for (let at = 0; at < stream.length; at += size) {
          heard.push(...reader.take(new Uint8Array(stream.subarray(at, at + size))));
        }
        expect(heard).toStrictEqual(events);
      }),
    );
  });

  it('takes no key that would reach into the prototype', () => {
    // fixmap of one pair, fixstr "__proto__", fixmap of none (MessagePack specification, formats).
    const bytes = new Uint8Array([0x81, 0xa9, ...Buffer.from('__proto__'), 0x80]);
    expect(() => decode(bytes)).toThrow();
  });

  it('throws an Error, and no other thing, at bytes that are no message', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 64 }), (bytes) => {
        try {
          decode(bytes);
        } catch (problem) {
          expect(problem).toBeInstanceOf(Error);
        }
      }),
    );
  });
});
