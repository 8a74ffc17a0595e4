# SPDX-License-Identifier: GPL-3.0-or-later
"""Real file servers for tests, each on a free port of 127.0.0.1 in a private folder of its own:

    with servers.webdav() as dav: …     Apache with mod_dav, over TLS
    with servers.sftp() as ssh: …       OpenSSH, sftp only
    with servers.s3() as store: …       OpenStack Swift with its S3 interface, over TLS

They need no account of the machine, run for root and for anybody else, and end with the test, also
when that is killed. What a client needs to know is in the attributes of the server; start(), stop()
and the changes of certificate or host key are for tests of what then happens. Nothing is known of
Wainbook here."""

import base64
import ctypes
import datetime
import hashlib
import hmac
import http.client
import ipaddress
import os
import pathlib
import pwd
import random
import shutil
import signal
import socket
import ssl
import subprocess
import tempfile
import time

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

HERE = pathlib.Path(__file__).resolve().parent
HOST = "localhost"
START_SECONDS = 30
# A process of its own: within sshd the files of accounts that are put under it get mixed up with the folders
# that it reads.
SFTP_SERVER = "/usr/lib/openssh/sftp-server"


# --- certificates --------------------------------------------------------------------------------


class Authority:
    """An authority for one test, and certificates that it signed. ca is the file that a client is to
    trust, other_ca one of an authority that signed nothing."""

    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.folder.mkdir(parents=True, exist_ok=True)
        self.ca, self._own = self._root("ca", "Authority of this test")
        self.other_ca, self._other = self._root("other-ca", "Another authority")

    @staticmethod
    def _name(text):
        return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])

    def _write(self, name, data, mode=0o644):
        path = self.folder / name
        path.touch(mode=0o600)
        path.write_bytes(data)
        path.chmod(mode)
        return path

    @staticmethod
    def _builder(subject, issuer, key, begins, ends):
        today = datetime.datetime.utcnow()
        return (x509.CertificateBuilder().subject_name(subject).issuer_name(issuer)
                .public_key(key.public_key()).serial_number(x509.random_serial_number())
                .not_valid_before(today + datetime.timedelta(days=begins))
                .not_valid_after(today + datetime.timedelta(days=ends)))

    def _root(self, name, words):
        key = ec.generate_private_key(ec.SECP256R1())
        subject = self._name(words)
        certificate = (self._builder(subject, subject, key, -400, 30)
                       .add_extension(x509.BasicConstraints(ca=True, path_length=None), True)
                       .add_extension(x509.KeyUsage(False, False, False, False, False, True, True,
                                                    False, False), True)
                       .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), False)
                       .sign(key, hashes.SHA256()))
        path = self._write(name + ".pem", certificate.public_bytes(serialization.Encoding.PEM))
        return path, (certificate, key)

    def certificate(self, kind="good"):
        """Returns the files of a new certificate and of its key. kind is "good", "wrong-ca" (signed by
        the other authority), "wrong-host" or "expired"."""
        issuer, signer = self._other if kind == "wrong-ca" else self._own
        key = ec.generate_private_key(ec.SECP256R1())
        names = [x509.DNSName("elsewhere.invalid")] if kind == "wrong-host" else [
            x509.DNSName(HOST), x509.IPAddress(ipaddress.ip_address("127.0.0.1"))]
        begins, ends = (-300, -10) if kind == "expired" else (-1, 20)
        certificate = (self._builder(self._name("server"), issuer.subject, key, begins, ends)
                       .add_extension(x509.SubjectAlternativeName(names), False)
                       .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), False)
                       .add_extension(x509.BasicConstraints(ca=False, path_length=None), True)
                       .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(
                           signer.public_key()), False)
                       .sign(signer, hashes.SHA256()))
        serial = f"{certificate.serial_number:x}"
        return (self._write(f"{kind}-{serial}.pem", certificate.public_bytes(serialization.Encoding.PEM)),
                self._write(f"{kind}-{serial}.key", key.private_bytes(
                    serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8,
                    serialization.NoEncryption()), 0o600))


# --- what all have in common ---------------------------------------------------------------------


def free_port():
    """A port on which nothing listens: below those that the system gives to connections, where it would
    soon be somebody else's."""
    while True:
        port = random.randrange(15000, 32000)
        with socket.socket() as found:
            try:
                found.bind(("127.0.0.1", port))
                return port
            except OSError:
                continue


def answers(port):
    """Whether something listens there."""
    try:
        with socket.create_connection(("127.0.0.1", port), 1):
            return True
    except OSError:
        return False


def remove(folder):
    """Removes the folder of a server that had no time for it."""
    shutil.rmtree(folder, ignore_errors=True)


def _processes_below(pid):
    """The processes that pid has started, and those that they have."""
    found = []
    for path in pathlib.Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            children = path.read_text(encoding="ascii").split()
        except OSError:       # gone meanwhile
            continue
        for child in children:
            found += [int(child), *_processes_below(int(child))]
    return found


def _die_with_parent():
    """Between fork and exec: SIGTERM comes when the test is gone, however it went."""
    ctypes.CDLL(None).prctl(1, signal.SIGTERM)


class Server:
    """A process on a port. The folder is removed at the end, with all that was stored."""

    scheme = "https"

    def __init__(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="wb-server-"))
        self.port = None
        self.log = self.folder / "log"
        self.extra = {}         # environment of what writes the files, besides
        self._process = None

    def command(self):
        """Writes what the server has to find and returns its command line and environment."""
        raise NotImplementedError

    def start(self):
        """Starts the server, on the port that it had before if there was one."""
        fixed = self.port is not None
        for _attempt in range(1 if fixed else 5):
            if not fixed:
                self.port = free_port()
            words, more = self.command()
            with open(self.log, "ab") as log:
                self._process = subprocess.Popen(
                    [str(word) for word in words], stdin=subprocess.DEVNULL, stdout=log, stderr=log,
                    cwd=self.folder, env={**os.environ, **more}, start_new_session=True,
                    preexec_fn=_die_with_parent)
            if self._is_up():
                return self
            self.stop()
        raise RuntimeError(f"{type(self).__name__} did not start:\n{self.log_tail()}")

    def _is_up(self):
        until = time.monotonic() + START_SECONDS
        while time.monotonic() < until and self._process.poll() is None:
            if answers(self.port):
                return self._process.poll() is None
            time.sleep(0.03)
        return False

    def stop(self):
        """Ends the server and every connection to it. What was stored stays."""
        self._end(signal.SIGTERM, signal.SIGKILL)

    def kill(self):
        """The same without giving it time for anything."""
        self._end(signal.SIGKILL)

    def restart(self, **settings):
        """Goes on with other attributes."""
        self.stop()
        for name, value in settings.items():
            setattr(self, name, value)
        self.start()

    def _end(self, *signals):
        process, self._process = self._process, None
        if process is None:
            return
        below = _processes_below(process.pid)
        for ending in signals:
            try:
                os.killpg(process.pid, ending)
            except ProcessLookupError:
                pass
            try:
                process.wait(10)
                break
            except subprocess.TimeoutExpired:
                continue
        for pid in below:
            try:
                os.kill(pid, signal.SIGKILL)      # sessions, some of which go on by themselves
            except ProcessLookupError:
                pass

    def log_tail(self, lines=20):
        text = self.log.read_text(errors="replace") if self.log.exists() else ""
        return "\n".join(text.splitlines()[-lines:])

    def __enter__(self):
        try:
            return self.start()
        except BaseException:
            self.__exit__()
            raise

    def __exit__(self, *_details):
        self.stop()
        remove(self.folder)


class OverTls(Server):
    """What servers with a certificate share."""

    def __init__(self, certificate="good"):
        super().__init__()
        self.authority = Authority(self.folder / "tls")
        self.ca, self.other_ca = self.authority.ca, self.authority.other_ca
        self.certificate, self.key = self.authority.certificate(certificate)

    def change_certificate(self, kind="good"):
        """Goes on with another certificate, of a kind that Authority.certificate() knows."""
        certificate, key = self.authority.certificate(kind)
        self.restart(certificate=certificate, key=key)

    def context(self):
        """What Python needs to speak with the server itself."""
        return ssl.create_default_context(cafile=str(self.ca))


# --- WebDAV --------------------------------------------------------------------------------------


class WebDav(OverTls):
    """url, user, password; files is the folder that is served. With writable=False everything that
    would change a file is answered with 403."""

    def __init__(self, certificate="good", writable=True):
        super().__init__(certificate)
        self.user, self.password = "courier", "a pass%20word: ä"
        self.files = self.folder / "files"
        self.writable = writable

    @property
    def url(self):
        return f"https://{HOST}:{self.port}/dav"

    def command(self):
        state = self.folder / "state"
        for path in (self.files, state):
            path.mkdir(exist_ok=True)
        users = self.folder / "users"
        sha1 = base64.b64encode(hashlib.sha1(self.password.encode()).digest()).decode()
        users.write_text(f"{self.user}:{{SHA}}{sha1}\n", encoding="utf-8")
        who = ""
        if os.getuid() == 0:
            # Its workers are somebody else, who gets at the folder and owns what is in it.
            who = "User www-data\nGroup www-data\n"
            self.folder.chmod(0o711)
            for path in (self.files, state, users):
                shutil.chown(path, "www-data", "www-data")
        modules = "".join(f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so\n" for name in (
            "mpm_event", "authn_core", "authn_file", "authz_core", "authz_user", "auth_basic", "alias",
            "dav", "dav_fs", "ssl", "setenvif"))
        methods = "" if self.writable else "Require method GET HEAD OPTIONS PROPFIND"
        settings = self.folder / "httpd.conf"
        settings.write_text(f"""\
ServerRoot "{self.folder}"
ServerName {HOST}
Listen 127.0.0.1:{self.port}
PidFile "{state}/pid"
ErrorLog "{self.log}"
Mutex file:{state}
{modules}{who}StartServers 1
ServerLimit 4
ThreadsPerChild 16
MaxRequestWorkers 64
MinSpareThreads 4
MaxSpareThreads 64
GracefulShutdownTimeout 1
SSLEngine on
SSLCertificateFile "{self.certificate}"
SSLCertificateKeyFile "{self.key}"
SSLProtocol -all +TLSv1.2 +TLSv1.3
DavLockDB "{state}/davlock"
LimitRequestBody 0
DocumentRoot "{state}"
Alias /dav "{self.files}"
<Directory "{self.files}">
  Dav On
  AuthType Basic
  AuthName "files"
  AuthBasicProvider file
  AuthUserFile "{users}"
  AuthzSendForbiddenOnFailure On
  <RequireAll>
    Require valid-user
    {methods}
  </RequireAll>
</Directory>
""", encoding="utf-8")
        return ["/usr/sbin/apache2", "-d", self.folder, "-f", settings, "-DFOREGROUND"], self.extra


# --- SFTP ----------------------------------------------------------------------------------------


class Sftp(Server):
    """url, user, password; key_file is a private key that lets in, wrong_key_file one that does not;
    files is the folder that url names; fingerprint is that of the host key, as OpenSSH prints it. With
    writable=False nothing can be changed there."""

    scheme = "sftp"

    def __init__(self, writable=True):
        super().__init__()
        self.writable = writable
        self.user, self.password = "courier", "pass word"
        self.files = self.folder / "files"
        self.files.mkdir()
        self.key_file = self._new_key("client")
        self.wrong_key_file = self._new_key("other-client")
        self._host_keys = 0
        self.host_key = self.new_host_key()

    def _new_key(self, name):
        path = self.folder / name
        subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", path], check=True)
        return path

    @property
    def url(self):
        return f"sftp://127.0.0.1:{self.port}{self.files}"

    @property
    def host_public_key(self):
        """The two words of it: kind and base64."""
        return self.host_key.with_suffix(".pub").read_text(encoding="ascii").split()[:2]

    @property
    def fingerprint(self):
        found = hashlib.sha256(base64.b64decode(self.host_public_key[1])).digest()
        return "SHA256:" + base64.b64encode(found).decode().rstrip("=")

    def change_host_key(self):
        """Goes on with another host key."""
        self.restart(host_key=self.new_host_key())

    def new_host_key(self):
        self._host_keys += 1
        return self._new_key(f"host-{self._host_keys}")

    def command(self):
        # An account that exists for this process alone: whoever runs the test, under another name.
        me = pwd.getpwuid(os.getuid())
        accounts = [f"{self.user}:x:{me.pw_uid}:{me.pw_gid}::{self.folder}:/bin/sh"]
        for name in ("sshd", "root"):
            try:
                found = pwd.getpwnam(name)
            except KeyError:
                continue
            accounts.append(f"{name}:x:{found.pw_uid}:{found.pw_gid}::{found.pw_dir}:/usr/sbin/nologin")
        (self.folder / "passwd").write_text("\n".join(accounts) + "\n", encoding="utf-8")
        (self.folder / "group").write_text(f"courier:x:{me.pw_gid}:\n", encoding="utf-8")
        digest = subprocess.run(["openssl", "passwd", "-6", "-stdin"], input=self.password, text=True,
                                capture_output=True, check=True).stdout.strip()
        shadow = self.folder / "shadow"
        shadow.touch(mode=0o600)
        shadow.write_text(f"{self.user}:{digest}:19000:0:99999:7:::\n", encoding="ascii")
        if os.getuid() == 0:
            os.makedirs("/run/sshd", mode=0o755, exist_ok=True)      # its path is compiled in
        files = " ".join([SFTP_SERVER, "-d", str(self.files), *([] if self.writable else ["-R"])])
        if self.extra:
            files = " ".join(["/usr/bin/env", *(f"{name}={value}" for name, value in self.extra.items()), files])
        settings = self.folder / "sshd_config"
        settings.write_text(f"""\
ListenAddress 127.0.0.1
Port {self.port}
HostKey {self.host_key}
PidFile none
AuthorizedKeysFile {self.key_file}.pub
StrictModes no
PermitRootLogin yes
AllowUsers {self.user}
PubkeyAuthentication yes
PasswordAuthentication yes
KbdInteractiveAuthentication no
UsePAM no
UseDNS no
AllowTcpForwarding no
AllowAgentForwarding no
PermitTTY no
MaxStartups 100
LogLevel VERBOSE
Subsystem sftp {SFTP_SERVER}
ForceCommand {files}
""", encoding="utf-8")
        return ["/usr/sbin/sshd", "-D", "-e", "-f", settings], {
            "LD_PRELOAD": "libnss_wrapper.so",
            "NSS_WRAPPER_PASSWD": str(self.folder / "passwd"),
            "NSS_WRAPPER_GROUP": str(self.folder / "group"),
            "NSS_WRAPPER_SHADOW": str(shadow),
        }


# --- S3 ------------------------------------------------------------------------------------------


class S3(OverTls):
    """url (the end point), access_key, secret, region; bucket is there and empty. The server verifies
    signatures of version 4 and refuses a date that is more than 15 minutes off its own, which is skew
    seconds wrong. If-None-Match: * is answered with 501, or with conditional=True as it is meant."""

    def __init__(self, certificate="good", skew=0, conditional=False):
        super().__init__(certificate)
        self.skew, self.conditional = skew, conditional
        self.access_key, self.secret = "WBTESTACCESSKEY", "not/a+secret=at&all"
        self.region, self.bucket = "us-east-1", "office"

    @property
    def url(self):
        return f"https://{HOST}:{self.port}"

    def command(self):
        secret = self.folder / "secret"
        secret.touch(mode=0o600)
        secret.write_text(self.secret, encoding="ascii")
        return ["/usr/bin/python3", HERE / "s3_node.py", self.folder, self.port, self.certificate, self.key,
                self.access_key, secret, self.skew, "yes" if self.conditional else "no"], {
                    "PYTHONWARNINGS": "ignore", **self.extra}

    def start(self):
        fresh = self.port is None
        super().start()
        if fresh:
            self.use_bucket(self.bucket)
        return self

    def use_bucket(self, name):
        """Makes a bucket and goes on with it."""
        status, _headers, body = self.request("PUT", f"/{name}", skew=self.skew)
        if status != 200:
            raise RuntimeError(f"no bucket could be made: {status} {body!r}\n{self.log_tail()}")
        self.bucket = name

    def request(self, method, path, query="", body=b"", skew=0):
        """One signed request of the test's own, for looking into the store. query is as it is to be
        sent, sorted and encoded; skew are seconds that its clock is off. Returns status, headers, body."""
        when = datetime.datetime.utcnow() + datetime.timedelta(seconds=skew)
        stamp, day = when.strftime("%Y%m%dT%H%M%SZ"), when.strftime("%Y%m%d")
        digest = hashlib.sha256(body).hexdigest()
        host = f"{HOST}:{self.port}"
        names = "host;x-amz-content-sha256;x-amz-date"
        canonical = "\n".join([method, path, query, f"host:{host}", f"x-amz-content-sha256:{digest}",
                               f"x-amz-date:{stamp}", "", names, digest])
        scope = f"{day}/{self.region}/s3/aws4_request"
        text = "\n".join(["AWS4-HMAC-SHA256", stamp, scope,
                          hashlib.sha256(canonical.encode()).hexdigest()])
        key = ("AWS4" + self.secret).encode()
        for word in (*scope.split("/"), text):
            key = hmac.new(key, word.encode(), hashlib.sha256).digest()
        connection = http.client.HTTPSConnection(HOST, self.port, timeout=20, context=self.context())
        try:
            connection.request(method, path + (f"?{query}" if query else ""), body, {
                "x-amz-date": stamp, "x-amz-content-sha256": digest,
                "Authorization": f"AWS4-HMAC-SHA256 Credential={self.access_key}/{scope}, "
                                 f"SignedHeaders={names}, Signature={key.hex()}"})
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        finally:
            connection.close()


def webdav(**settings):
    return WebDav(**settings)


def sftp(**settings):
    return Sftp(**settings)


def s3(**settings):
    return S3(**settings)
