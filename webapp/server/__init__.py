"""Who may come in: addresses, devices, rates, the guard, the log.

Strangers are known by the connection and the cookie, never by a header alone. What they may open is one pattern in
`door`; a test walks every route there is, so a new page is shut until it is named there. Answers leave at once: the
listener sets TCP_NODELAY, without which every request of a kept connection waits 40 ms.

Connections have deadlines (`patience`) and make room for one another (`room`); no limit of the server's own is set,
since it would refuse the owner for what strangers hold. No forwarding header is read, so none can be believed.
"""
