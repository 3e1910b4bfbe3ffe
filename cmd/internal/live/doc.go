// Package live serves the page that shows a pattern while it is written.
//
// A [Server] listens on the loopback address only and keeps in memory what it
// serves: the page itself, which is embedded, and the outputs of the last good
// build. It opens no file. [Server.Show] replaces what is shown; every open page
// is told at once, over a stream of server-sent events.
//
// It is not a general server. It answers GET, one request on a connection, and
// refuses whatever another page could have sent: a foreign Host, a foreign
// Origin, a request that the browser itself calls cross-site. It is written on
// sockets rather than on net/http because that package, once linked, adds half
// as much again to the start of every other verb.
package live
