// Makes a PNG of a picture on the page, to send or to keep. The browser draws it; nothing is asked of the server.
import { toast } from './pass.js';

const widthPX = 2000;

// sendPicture hands the page's large picture to another app, or saves it where the browser cannot send files.
export async function sendPicture(button) {
  const svg = document.querySelector('.cover svg.front');
  const blob = await painted(svg).catch(() => null);
  if (!blob) return toast('no-picture');
  const file = new File([blob], button.dataset.picture, { type: blob.type });
  if (navigator.canShare?.({ files: [file] })) {
    return navigator.share({ files: [file] }).catch(() => {}); // the person may think better of it
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  toast('picture');
}

// painted draws an SVG of the page on a canvas, on the ground on which it stands.
async function painted(svg) {
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([await alone(svg)], { type: 'image/svg+xml' }));
  try {
    await image.decode();
  } finally {
    URL.revokeObjectURL(image.src);
  }
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth;
  canvas.height = image.naturalHeight;
  const pen = canvas.getContext('2d');
  pen.fillStyle = getComputedStyle(document.body).backgroundColor;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/png');
  });
}

// inside gives a file as an address that holds it.
async function inside(url) {
  const blob = await (await fetch(url)).blob();
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(reader.result);
    reader.onerror = reject;
    reader.readAsDataURL(blob);
  });
}

// alone writes an SVG of the page as a file of its own: with the shades and the photo it uses, and the look that the
// page gives it.
async function alone(svg) {
  const copy = svg.cloneNode(true);
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('width', widthPX);
  const own = svg.querySelectorAll('*');
  copy.querySelectorAll('*').forEach((element, i) => {
    const { stroke, strokeOpacity, fill, opacity, strokeLinejoin, vectorEffect } = getComputedStyle(own[i]);
    Object.assign(element.style, { stroke, strokeOpacity, fill, opacity, strokeLinejoin, vectorEffect });
  });
  copy.querySelector('.points')?.remove();
  const photo = copy.querySelector('image');
  if (photo) photo.setAttribute('href', await inside(photo.getAttribute('href')));
  copy.prepend(document.querySelector('.shades defs').cloneNode(true));
  return new XMLSerializer().serializeToString(copy);
}
