// A plain file server, as any web host is one: files of a folder under a path,
// index.html for a folder, a redirect to its slash, 404 for the rest.
import { createServer } from 'node:http'
import { readFile, stat } from 'node:fs/promises'
import { extname, join, normalize } from 'node:path'

const types = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.png': 'image/png', '.gz': 'application/gzip', '.webmanifest': 'application/manifest+json' }

// serveFiles serves a folder, or the one that a function names, under a path of a free
// port of this machine. asked lists what was asked for.
export async function serveFiles (folder, path = '/') {
  const asked = []
  const server = createServer(async (request, response) => {
    const url = new URL(request.url, 'http://localhost')
    asked.push(request.method + ' ' + request.url)
    const end = (status, headers, body) => response.writeHead(status, headers).end(body)
    if (!url.pathname.startsWith(path) || !['GET', 'HEAD'].includes(request.method)) return end(404, {}, 'not here')
    let name = join(typeof folder === 'function' ? folder() : folder, normalize('/' + url.pathname.slice(path.length)))
    try {
      if ((await stat(name)).isDirectory()) {
        if (!url.pathname.endsWith('/')) return end(301, { Location: url.pathname + '/' + url.search })
        name = join(name, 'index.html')
      }
      const body = await readFile(name)
      end(200, { 'Content-Type': types[extname(name)] ?? 'application/octet-stream', 'Content-Length': body.length }, request.method === 'HEAD' ? undefined : body)
    } catch {
      end(404, {}, 'not here')
    }
  })
  await new Promise(resolve => server.listen(0, '127.0.0.1', resolve))
  return { server, asked, origin: `http://127.0.0.1:${server.address().port}`, close: () => { server.closeAllConnections(); server.close() } }
}
