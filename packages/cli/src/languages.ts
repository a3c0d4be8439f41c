import type { Catalogue } from '@commensal/report';

/** The languages that text can be printed in; the first is the default. */
export const languages = ['en', 'de', 'ja'] as const;

export type Language = (typeof languages)[number];

/** The catalogue of a language, loaded when it is asked for: a command prints in one. */
export async function catalogueOf(language: Language): Promise<Catalogue> {
  switch (language) {
    case 'en':
      return (await import('@commensal/report/en')).en;
    case 'de':
      return (await import('@commensal/report/de')).de;
    case 'ja':
      return (await import('@commensal/report/ja')).ja;
  }
}
