// A photo as it is kept on the phone: upright, no longer than the side the site stores, drawn anew on a canvas, so that nothing of the
// file but the picture goes along. The day it was taken is read out of the file before (CIPA DC-008, Exif 2.32: tag 0x9003,
// DateTimeOriginal), and so is its size: a small file may hold a picture that no phone has room for.
const longestSide = 2048, largestFile = 80 * 1024 * 1024, mostPixels = 120e6, quality = 0.85;

export async function shrink(file) {
  if (file.size > largestFile) {
    throw new Error(`The file has ${Math.round(file.size / 1048576)} MB. Take the photo with the camera here, or choose a smaller one.`);
  }
  const head = new DataView(await file.slice(0, 131072).arrayBuffer());
  const takenOn = dayOf(head, file);
  const [width, height] = within(() => sizeOf(head)) ?? [0, 0];
  if (width * height > mostPixels) {
    throw new Error(`The picture has ${width} by ${height} pixels: too many for a phone. Choose a smaller one.`);
  }
  let picture;
  try {
    // The browser turns it the right way up as it decodes.
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error('This is not a picture that the phone can read. Choose another, or take one with the camera here.');
  }
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [Math.max(1, Math.round(picture.width * scale)), Math.max(1, Math.round(picture.height * scale))];
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const drawn = await new Promise(done => canvas.toBlob(done, 'image/jpeg', quality));
  if (!drawn) throw new Error('The phone could not make this photo smaller. Choose another.');
  return { picture: drawn, takenOn };
}

function dayOf(head, file) {
  const day = within(() => exifDay(head));
  if (day) return day;
  const changed = new Date(file.lastModified);
  return file.lastModified ? `${changed.getFullYear()}-${two(changed.getMonth() + 1)}-${two(changed.getDate())}` : '';
}

// A header that points behind its end tells nothing.
function within(read) {
  try {
    return read();
  } catch (problem) {
    if (!(problem instanceof RangeError)) throw problem;
    return null;
  }
}

// Width and height as the headers of PNG (ISO/IEC 15948, IHDR), GIF89a (screen descriptor), WebP (RFC 9649, VP8X) and JPEG (ITU-T T.81,
// the frame header) have them; null for others, which the browser reads or refuses.
function sizeOf(view) {
  const starts = (at, text) => [...text].every((c, i) => view.getUint8(at + i) === c.charCodeAt(0));
  if (starts(1, 'PNG')) return [view.getUint32(16), view.getUint32(20)];
  if (starts(0, 'GIF8')) return [view.getUint16(6, true), view.getUint16(8, true)];
  const three = at => 1 + view.getUint16(at, true) + view.getUint8(at + 2) * 65536;
  if (starts(0, 'RIFF') && starts(12, 'VP8X')) return [three(24), three(27)];
  if (view.getUint16(0) !== 0xFFD8) return null;
  for (let at = 2; view.getUint8(at) === 0xFF; at += 2 + view.getUint16(at + 2)) {
    const marker = view.getUint8(at + 1);
    if (marker >= 0xC0 && marker <= 0xCF && ![0xC4, 0xC8, 0xCC].includes(marker)) return [view.getUint16(at + 7), view.getUint16(at + 5)];
  }
  return null;
}

const two = number => String(number).padStart(2, '0');

function exifDay(view) {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xFFD8) return '';
  for (let at = 2; at + 4 < view.byteLength && view.getUint8(at) === 0xFF; at += 2 + view.getUint16(at + 2)) {
    if (view.getUint16(at) === 0xFFE1 && view.getUint32(at + 4) === 0x45786966) return tiffDay(view, at + 10);
  }
  return '';
}

function tiffDay(view, start) {
  const little = view.getUint16(start) === 0x4949;
  const find = (directory, wanted) => {
    const count = view.getUint16(directory, little);
    for (let i = 0; i < count; i++) {
      const entry = directory + 2 + i * 12;
      if (view.getUint16(entry, little) === wanted) return start + view.getUint32(entry + 8, little);
    }
    return 0;
  };
  const exif = find(start + view.getUint32(start + 4, little), 0x8769);
  const date = exif && find(exif, 0x9003);
  if (!date) return '';
  const text = Array.from({ length: 10 }, (_, i) => String.fromCharCode(view.getUint8(date + i))).join('');
  const found = /^(\d{4}):(\d{2}):(\d{2})$/.exec(text);
  return found && found[1] > '1900' ? `${found[1]}-${found[2]}-${found[3]}` : '';
}
