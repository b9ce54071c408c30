// A real video made here: WebM with a VP8 picture every 160 ms that has its own number burnt in, so that a test can read from the
// picture which moment it shows. A browser writes a lossy WebP as one VP8 key frame; this wraps such frames in a file.
// Sources: RFC 8794 (EBML), RFC 9559 (Matroska: elements, SimpleBlock, Cues), RFC 9649 (WebP: a RIFF file with a "VP8 " chunk),
// WebM container guidelines (codec V_VP8, doctype webm).

export const frame = 0.16; // seconds
const bits = 12; // squares in a picture, the highest first: white for 1
const square = 16; // pixels, a macroblock of VP8
const width = bits * square;
const height = square;
const inCluster = 30; // frames

/** A number of so many bytes, the highest first. */
function uint(n, bytes) {
  const b = Buffer.alloc(bytes);
  b.writeUIntBE(n, Math.max(0, bytes - 6), Math.min(6, bytes));
  return b;
}

/** An EBML element: its ID in hex, a length of eight bytes, its content. */
function element(id, ...content) {
  const body = Buffer.concat(content.map((c) => (typeof c === 'string' ? Buffer.from(c, 'latin1') : c)));
  const length = uint(body.length, 8);
  length[0] = 0x01; // the marker of eight bytes
  return Buffer.concat([Buffer.from(id, 'hex'), length, body]);
}

function float(x) {
  const b = Buffer.alloc(8);
  b.writeDoubleBE(x);
  return b;
}

const ms = (i) => Math.round(i * frame * 1000);

/** The key frame in a WebP that came as a data address. */
function vp8(address) {
  const file = Buffer.from(address.split(',')[1], 'base64');
  for (let at = 12; at < file.length;) {
    const size = file.readUInt32LE(at + 4);
    if (file.toString('latin1', at, at + 4) === 'VP8 ') return file.subarray(at + 8, at + 8 + size);
    at += 8 + size + (size % 2);
  }
  throw new Error('the browser wrote no lossy WebP');
}

function cluster(frames, first) {
  const blocks = frames.map((f, k) => element('a3', Buffer.from([0x81]), uint(ms(first + k) - ms(first), 2), Buffer.from([0x80]), f)); // track 1, a key frame
  return element('1f43b675', element('e7', uint(ms(first), 4)), ...blocks);
}

/** Where each cluster is, for a player that seeks: in the segment, whose first bytes are there before the clusters. */
function cues(clusters, before) {
  let at = before;
  return element('1c53bb6b', ...clusters.map((c, k) => {
    const point = element('bb', element('b3', uint(ms(k * inCluster), 4)), element('b7', element('f7', uint(1, 1)), element('f1', uint(at, 6))));
    at += c.length;
    return point;
  }));
}

function wrap(frames) {
  const head = element('1a45dfa3', element('4286', uint(1, 1)), element('42f7', uint(1, 1)), element('42f2', uint(4, 1)), element('42f3', uint(8, 1)),
    element('4282', 'webm'), element('4287', uint(2, 1)), element('4285', uint(2, 1)));
  const info = element('1549a966', element('2ad7b1', uint(1e6, 4)), element('4489', float(ms(frames.length))), element('4d80', 'test'), element('5741', 'test'));
  const track = element('1654ae6b', element('ae', element('d7', uint(1, 1)), element('73c5', uint(1, 1)), element('83', uint(1, 1)), element('86', 'V_VP8'),
    element('e0', element('b0', uint(width, 2)), element('ba', uint(height, 2)))));
  const clusters = [];
  for (let i = 0; i < frames.length; i += inCluster) clusters.push(cluster(frames.slice(i, i + inCluster), i));
  const length = info.length + track.length + cues(clusters, 0).length; // which does not depend on what is in the cues
  return Buffer.concat([head, element('18538067', info, track, cues(clusters, length), ...clusters)]);
}

/** A video of so many seconds, drawn in a page of the browser. */
export async function numbered(page, seconds) {
  const pictures = await page.evaluate(([n, bits, square]) => {
    const canvas = Object.assign(document.createElement('canvas'), { width: bits * square, height: square });
    const pen = canvas.getContext('2d');
    return Array.from({ length: n }, (_, i) => {
      for (let b = 0; b < bits; b++) {
        pen.fillStyle = (i >> (bits - 1 - b)) & 1 ? '#fff' : '#000';
        pen.fillRect(b * square, 0, square, square);
      }
      return canvas.toDataURL('image/webp', 0.5);
    });
  }, [Math.ceil(seconds / frame), bits, square]);
  return wrap(pictures.map(vp8));
}

/** The moment, in seconds, that the picture in a video element belongs to: read from its squares. */
export async function momentShown(page, selector) {
  const number = await page.evaluate(([s, bits, square]) => {
    const canvas = Object.assign(document.createElement('canvas'), { width: bits * square, height: square });
    const pen = canvas.getContext('2d');
    pen.drawImage(document.querySelector(s), 0, 0);
    return Array.from({ length: bits }, (_, b) => pen.getImageData(b * square + square / 2, square / 2, 1, 1).data[1]).reduce((n, light) => 2 * n + (light > 127), 0);
  }, [selector, bits, square]);
  return number * frame;
}
