import type { WordPicture, WordPictureStyle } from '../../core/tracks/word-svg.ts';

/** The same picture as PNG, drawn off the page. Rejects where the browser makes none. */
export async function wordPng({ pathData, strokePixels, widthPixels, heightPixels }: WordPicture, { sky, smoke, across }: WordPictureStyle): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = widthPixels;
  canvas.height = heightPixels;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This browser draws no pictures.');
  context.fillStyle = sky;
  context.fillRect(0, 0, widthPixels, heightPixels);
  context.strokeStyle = smoke;
  context.lineWidth = strokePixels;
  context.lineCap = 'round';
  context.lineJoin = 'round';
  context.stroke(new Path2D(pathData));
  if (across !== '') {
    context.globalAlpha = 0.35;
    context.fillStyle = smoke;
    context.textAlign = 'center';
    context.font = `700 ${Math.round(heightPixels / 4)}px sans-serif`;
    context.fillText(across, widthPixels / 2, heightPixels / 2);
  }
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob === null ? reject(new Error('The browser made no picture.')) : resolve(blob)), 'image/png');
  });
}
