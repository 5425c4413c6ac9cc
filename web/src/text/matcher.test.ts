import { describe, expect, it } from 'vitest';
import { phrasesOf } from '../../tools/phrases.mjs';
import { matcher } from './matcher';

describe('a sentence of core\'s', () => {
  const said = matcher({
    '{} of {} at {}': 'en {2}, {0} de {1}', 'a riser': 'una contrahuella', 'step {}': 'el escalón {0}', 'steps {}': 'los escalones {0}',
    '{} and {}': '{0} y {1}', 'a fold of radius {} {} at {}': 'en {2} un doblez {1} de radio {0}', 'over the nosing': 'sobre el bocel',
    '{:.1f} % of the {} stays bare': 'queda sin cubrir el {0} % de {1}', 'a piece of {}': 'una pieza de {0}', 'the rise, {}{}': 'el alto, {0}{1}', ': again': ': otra vez',
  });
  const text = (sentence: string) => said(sentence).text;

  it('is said with its values in the other language\'s order, phrases among them said too', () =>
    expect(text('a riser of 8 1/4" at steps 1–4, 6 and 9')).toBe('en los escalones 1–4, 6 y 9, una contrahuella de 8 1/4"'));
  it('is parted where every part is known', () => expect(text('a fold of radius 1 mm over the nosing at step 3')).toBe('en el escalón 3 un doblez sobre el bocel de radio 1 mm'));
  it('may have a value with a form of its own, or an empty one', () => {
    expect(text('0.5 % of the a riser stays bare')).toBe('queda sin cubrir el 0.5 % de una contrahuella');
    expect(text('the rise, 9\' 2"')).toBe('el alto, 9\' 2"');
    expect(text('the rise, 9\' 2": again')).toBe('el alto, 9\' 2": otra vez');
  });
  it('keeps the user\'s words, and tells of them', () => expect(said('a piece of The top of it')).toMatchObject({ text: 'una pieza de The top of it', unknown: ['The top of it'] }));
  it('keeps what stands in quotes', () => expect(matcher({ 'of \'{}\'': 'de \'{0}\'', back: 'fondo' })('of \'back\'').text).toBe('de \'back\''));
  it('stays as it is where nothing is known of it', () => expect(said('something else')).toEqual({ text: 'something else', unknown: ['something else'], ways: ['something else'] }));
  it('tells when it can be read in two ways', () => {
    const two = matcher({ 'step {} {} wide': 'escalón {0}, {1} de ancho' });
    expect(two('step 5 38 1/16" wide').ways).toHaveLength(2);
  });
});

describe('the phrases of a source', () => {
  const of = (source: string) => [...phrasesOf(source)];
  it('are its literals, those side by side as one', () => expect(of('f("a \\"b\\" "\n  "c", u8); // "no"\n')).toEqual(['a "b" c']));
  it('have {} for what is added', () => {
    expect(of('x = what + ", right" + list(a, "b");')).toEqual(['{}, right{}', 'b']);
    expect(of('text += " and more";')).toEqual(['{} and more']);
    expect(of('g(one ? "a " + b : "c " + d.e(), "f")')).toEqual(['a {}', 'c {}', 'f']);
  });
});
