// Reads a data package with the reader of the npm registry, independent of our
// own: profile, then every row, key and foreign key. node check.mjs FILE
import { readFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { createHash } from 'node:crypto'
import datapackage from 'datapackage'

const [file] = process.argv.slice(2)
const most = 5 // faults shown per table
const faults = (name, list) => {
  for (const e of list.slice(0, most)) console.log(`${name}: ${e.message}`)
  if (list.length > most) console.log(`${name}: and ${list.length - most} more`)
  if (list.length) process.exitCode = 1
}
const flat = list => list.flatMap(e => (e.errors?.length ? e.errors.map(x => Object.assign(x, { rowNumber: x.rowNumber ?? e.rowNumber })) : [e]))

const pkg = await datapackage.Package.load(file)
faults(file, pkg.errors)
for (const res of pkg.resources) {
  const { path, bytes, hash, schema } = res.descriptor
  const found = []
  const raw = await readFile(`${dirname(file)}/${path}`)
  const sum = 'sha256:' + createHash('sha256').update(raw).digest('hex')
  if (raw.length !== bytes || sum !== hash) found.push(new Error('bytes or hash are not those of the descriptor'))
  let rows = []
  try {
    rows = await res.read({ keyed: true, relations: true, forceCast: true })
  } catch (e) {
    found.push(...flat([e]))
  }
  found.push(...flat(rows.filter(r => r instanceof Error)))
  for (const key of schema.uniqueKeys ?? []) { // version 2, which the reader does not know
    const seen = new Set()
    for (const [i, r] of rows.entries()) {
      const k = JSON.stringify(key.map(f => r[f]?.id ?? r[f]))
      if (!(r instanceof Error) && seen.size === seen.add(k).size) found.push(new Error(`row ${i + 2}: ${key} is already there: ${k}`))
    }
  }
  faults(path, found)
  console.log(`${path}: ${rows.length} rows, ${found.length ? found.length + ' faults' : 'sound'}`)
}
if (!pkg.resources.length) faults(file, [new Error('describes no table')])
