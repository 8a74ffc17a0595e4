#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""OpenStack Swift with its S3 interface as one process: proxy, account, container and object server
of one disk, which is a plain folder. It checks signatures (version 4), dates, conditions and parts as
it does in earnest; only the cache and, on a file system that keeps no attributes of files, those are
in memory, and no disk is waited for. Started by servers.py.

    s3_node.py FOLDER PORT CERTIFICATE KEY ACCESS-KEY SECRET-FILE SKEW CONDITIONAL

Its clock is SKEW seconds off. With "yes" for CONDITIONAL, If-None-Match: * is answered as newer stores do;
this version of Swift answers 501."""

import errno
import os
import pathlib
import ssl
import sys
import time

import eventlet

eventlet.monkey_patch()

from eventlet import wsgi  # noqa: E402
from swift.common import storage_policy, utils  # noqa: E402
from swift.common.ring import RingBuilder  # noqa: E402
from swift.common.swob import Request  # noqa: E402
from swift.common.wsgi import loadapp  # noqa: E402

KINDS = ("account", "container", "object")
PIPELINE = "catch_errors gatekeeper listing_formats s3api tempauth bulk copy slo dlo"


class Cache(dict):
    """As much of a memcache as the proxy asks for, without times."""

    def __bool__(self):
        return True

    def get(self, key, raise_on_error=False):
        return dict.get(self, key)

    def set(self, key, value, **_more):
        self[key] = value

    def delete(self, key, **_more):
        self.pop(key, None)

    def incr(self, key, delta=1, **_more):
        self[key] = int(self.get(key) or 0) + delta
        return self[key]

    def decr(self, key, delta=1, **_more):
        return self.incr(key, -delta)


class Attributes:
    """Attributes of files in memory, by what the file is and not by its name."""

    def __init__(self):
        self.kept = {}

    @staticmethod
    def key(file, name):
        found = os.stat(file)
        return found.st_dev, found.st_ino, name

    def setxattr(self, file, name, value, *_more):
        self.kept[self.key(file, name)] = value

    def getxattr(self, file, name, *_more):
        try:
            return self.kept[self.key(file, name)]
        except KeyError:
            raise OSError(61, "No data available") from None

    def removexattr(self, file, name, *_more):
        self.kept.pop(self.key(file, name), None)


def keeps_attributes(folder):
    probe = folder / "attribute"
    probe.write_bytes(b"")
    try:
        os.setxattr(probe, "user.wainbook", b"x" * 1000)
    except OSError:
        return False
    finally:
        probe.unlink()
    return True


def write_settings(root, ports, access_key, secret):
    (root / "swift.conf").write_text(
        "[swift-hash]\nswift_hash_path_suffix = s\nswift_hash_path_prefix = p\n"
        "[storage-policy:0]\nname = only\ndefault = yes\n")
    common = (f"[DEFAULT]\nswift_dir = {root}\ndevices = {root}/devices\nmount_check = false\n"
              f"disable_fallocate = true\nlog_address = {root}/no-log\nrecon_cache_path = {root}\n")
    for kind in KINDS:
        (root / f"{kind}.conf").write_text(
            common + f"[app:main]\nuse = egg:swift#{kind}\nfallocate_reserve = 0\n")
        builder = RingBuilder(4, 1, 0)
        builder.add_dev({"id": 0, "region": 1, "zone": 1, "ip": "127.0.0.1", "port": ports[kind],
                         "device": "disk", "weight": 1.0})
        builder.rebalance()
        builder.get_ring().save(str(root / f"{kind}.ring.gz"))
    filters = "".join(f"[filter:{name}]\nuse = egg:swift#{name}\n" for name in PIPELINE.split()
                      if name not in ("s3api", "tempauth"))
    (root / "proxy.conf").write_text(
        common + f"[pipeline:main]\npipeline = {PIPELINE} proxy-server\n" + filters
        + "[filter:s3api]\nuse = egg:swift#s3api\nlocation = us-east-1\nallow_multipart_uploads = yes\n"
        + f"[filter:tempauth]\nuse = egg:swift#tempauth\nuser_office_{access_key} = {secret} .admin\n"
        + "[app:proxy-server]\nuse = egg:swift#proxy\naccount_autocreate = true\n")
    (root / "proxy.conf").chmod(0o600)


def inner(app):
    """The proxy alone, without what is in front of it."""
    while getattr(app, "app", None) is not None:
        app = app.app
    return app


def admit(app, access_key):
    """An account with a plain access key; tempauth would have it called ACCOUNT:USER."""
    while app is not None:
        users = getattr(app, "users", None)
        if users and f"office:{access_key}" in users:
            users[access_key] = users[f"office:{access_key}"]
            return
        app = getattr(app, "app", None)
    raise SystemExit("no tempauth in the pipeline")


def set_clock(skew):
    from swift.common.middleware.s3api import s3request

    class Clock(s3request.S3Timestamp):
        @classmethod
        def now(cls, *words, **more):
            return cls(time.time() + skew)

    s3request.S3Timestamp = Clock


def exists(proxy, path):
    """Whether there is an object, asked past all signatures."""
    asked = Request.blank(f"/v1/AUTH_office{path}", method="HEAD", environ={"swift.authorize_override": True})
    return asked.get_response(proxy).status_int == 200


def on_condition(proxy, serve):
    """Looks at If-None-Match before Swift does, for one object at once and for parts that become one."""
    def answer(environment, start_response):
        condition = environment.get("HTTP_IF_NONE_MATCH")
        query = environment.get("QUERY_STRING", "")
        if environment["REQUEST_METHOD"] in ("PUT", "POST") and condition == "*" and "uploads" not in query:
            del environment["HTTP_IF_NONE_MATCH"]
            if exists(proxy, environment["PATH_INFO"]):
                body = (b"<?xml version='1.0' encoding='UTF-8'?>\n<Error><Code>PreconditionFailed</Code>"
                        b"<Message>At least one of the preconditions did not hold.</Message></Error>")
                environment["wsgi.input"].read()
                start_response("412 Precondition Failed", [("Content-Type", "application/xml"),
                                                           ("Content-Length", str(len(body)))])
                return [body]
        return serve(environment, start_response)
    return answer


def patient(accept):
    """Who is gone again before it is looked who it was, which some lines see to, does not end the store."""
    def again():
        while True:
            try:
                return accept()
            except OSError as error:
                if not isinstance(error, (ssl.SSLError, ConnectionError)) and error.errno != errno.ENOTCONN:
                    raise
    return again


def main():
    # What was written is there after a kill -9 as well; only the machine never goes off during a test.
    os.fsync = os.fdatasync = lambda _fd: None
    root, port = pathlib.Path(sys.argv[1]), int(sys.argv[2])
    certificate, key, access_key = sys.argv[3:6]
    set_clock(int(sys.argv[7]))
    secret = pathlib.Path(sys.argv[6]).read_text(encoding="ascii").strip()

    (root / "devices" / "disk").mkdir(parents=True, exist_ok=True)
    if not keeps_attributes(root):
        from swift.obj import diskfile
        diskfile.xattr = Attributes()

    sockets = {kind: eventlet.listen(("127.0.0.1", 0)) for kind in KINDS}
    ports = {kind: found.getsockname()[1] for kind, found in sockets.items()}
    write_settings(root, ports, access_key, secret)
    utils.SWIFT_CONF_FILE = str(root / "swift.conf")
    utils.HASH_PATH_SUFFIX, utils.HASH_PATH_PREFIX = b"s", b"p"
    storage_policy.SWIFT_CONF_FILE = utils.SWIFT_CONF_FILE
    storage_policy.reload_storage_policies()

    for kind in KINDS:
        eventlet.spawn(wsgi.server, sockets[kind], loadapp(str(root / f"{kind}.conf")), sys.stderr)
    proxy = loadapp(str(root / "proxy.conf"))
    admit(proxy, access_key)
    cache = Cache()

    def serve(environment, start_response):
        environment["swift.cache"] = cache
        return proxy(environment, start_response)

    answer = on_condition(inner(proxy), serve) if sys.argv[8] == "yes" else serve
    # Whoever is slow to say who he is, or goes away meanwhile, is not to keep the others waiting.
    listener = eventlet.wrap_ssl(eventlet.listen(("127.0.0.1", port)), certfile=certificate,
                                 keyfile=key, server_side=True, do_handshake_on_connect=False)
    listener.accept = patient(listener.accept)
    wsgi.server(listener, answer, sys.stderr)


if __name__ == "__main__":
    main()
