/**
 * Namespaces and the short prefixes by which this folder calls them, whatever prefixes a file uses. Both conformance
 * classes of ECMA-376 (Transitional; Strict, under purl.oclc.org) come to the same prefix.
 */

const OFFICE = 'http://schemas.openxmlformats.org';
const STRICT = 'http://purl.oclc.org/ooxml';
const VENDOR = 'http://schemas.microsoft.com/office';

/** Prefix by namespace. */
export const PREFIXES: ReadonlyMap<string, string> = new Map([
  [`${OFFICE}/wordprocessingml/2006/main`, 'w'],
  [`${STRICT}/wordprocessingml/main`, 'w'],
  [`${OFFICE}/officeDocument/2006/relationships`, 'r'],
  [`${STRICT}/officeDocument/relationships`, 'r'],
  [`${OFFICE}/officeDocument/2006/math`, 'm'],
  [`${STRICT}/officeDocument/math`, 'm'],
  [`${OFFICE}/drawingml/2006/main`, 'a'],
  [`${STRICT}/drawingml/main`, 'a'],
  [`${OFFICE}/drawingml/2006/wordprocessingDrawing`, 'wp'],
  [`${STRICT}/drawingml/wordprocessingDrawing`, 'wp'],
  [`${OFFICE}/drawingml/2006/picture`, 'pic'],
  [`${STRICT}/drawingml/picture`, 'pic'],
  [`${OFFICE}/drawingml/2006/chart`, 'c'],
  [`${STRICT}/drawingml/chart`, 'c'],
  [`${OFFICE}/drawingml/2006/diagram`, 'dgm'],
  [`${STRICT}/drawingml/diagram`, 'dgm'],
  [`${OFFICE}/markup-compatibility/2006`, 'mc'],
  [`${OFFICE}/package/2006/relationships`, 'rel'],
  [`${OFFICE}/package/2006/metadata/core-properties`, 'cp'],
  ['http://purl.org/dc/elements/1.1/', 'dc'],
  ['http://purl.org/dc/terms/', 'dcterms'],
  ['urn:schemas-microsoft-com:vml', 'v'],
  ['urn:schemas-microsoft-com:office:office', 'o'],
  ['urn:schemas-microsoft-com:office:word', 'w10'],
  [`${VENDOR}/word/2010/wordml`, 'w14'],
  [`${VENDOR}/word/2012/wordml`, 'w15'],
  [`${VENDOR}/word/2010/wordprocessingDrawing`, 'wp14'],
  [`${VENDOR}/word/2010/wordprocessingShape`, 'wps'],
  [`${VENDOR}/word/2010/wordprocessingGroup`, 'wpg'],
  [`${VENDOR}/word/2010/wordprocessingCanvas`, 'wpc'],
  [`${VENDOR}/drawing/2010/main`, 'a14'],
  [`${VENDOR}/drawing/2016/SVG/main`, 'asvg'],
  ['http://www.w3.org/XML/1998/namespace', 'xml'],
]);

/** A prefix for the names of every namespace not listed: no element of it means anything here. */
export const UNKNOWN = '?';
