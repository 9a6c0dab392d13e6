import { createRequire } from 'node:module';
import path from 'node:path';
import { createWorker, OEM, PSM } from 'tesseract.js';

/** What the reader made of a picture: trimmed, upper case, spaces kept inside. */
export interface ReadText {
  readonly text: string;
  /** The engine's own confidence, 0 to 100. */
  readonly confidencePercent: number;
}

/** An eye that does not know the text; it reads one line of capitals and digits. */
export interface TextReader {
  read(png: Buffer): Promise<ReadText>;
  close(): Promise<void>;
}

/**
 * Starts the OCR engine (tesseract.js, English, offline; about 2 s) and keeps it for many pictures (0.2 to 0.3 s
 * each). It is told that there is one line and which class of characters to expect, never which text. Letters about
 * 48 pixels high are read best; with other page modes ("single word", "raw line") the clear sky round the text
 * changes what is read, so "single line" it is.
 *
 * @param characters the class of characters the reader may answer with; capitals and digits by default
 */
export async function openTextReader(characters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 '): Promise<TextReader> {
  const packageFile = createRequire(import.meta.url).resolve('@tesseract.js-data/eng/package.json');
  const worker = await createWorker('eng', OEM.LSTM_ONLY, {
    langPath: path.join(path.dirname(packageFile), '4.0.0_best_int'),
    gzip: true,
    cacheMethod: 'none',
  });
  await worker.setParameters({ tessedit_pageseg_mode: PSM.SINGLE_LINE, tessedit_char_whitelist: characters, user_defined_dpi: '150' });
  return {
    async read(png) {
      const { data } = await worker.recognize(png);
      return { text: data.text.trim().replace(/\s+/g, ' ').toUpperCase(), confidencePercent: data.confidence };
    },
    close: async () => void (await worker.terminate()),
  };
}
