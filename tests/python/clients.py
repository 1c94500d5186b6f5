"""The private door by the standard clients of gRPC, and the public one by the standard HTTP client.

Stubs are made here from the contract. Argument: a file of JSON with the addresses, the folder of the
contract, and the questions, each with the answer that is expected as it stands in JSON. Each part
prints its name and what it counted; the first fault ends it all.
"""

import http.client
import json
import pathlib
import sys
import tempfile
import threading
import time

import grpc
import grpc_tools
from google.protobuf import json_format
from google.protobuf.descriptor_pool import DescriptorPool
from google.protobuf.message_factory import GetMessageClass
from google.rpc import error_details_pb2
from grpc_health.v1 import health_pb2, health_pb2_grpc
from grpc_reflection.v1alpha.proto_reflection_descriptor_database import ProtoReflectionDescriptorDatabase
from grpc_status import rpc_status
from grpc_tools import protoc

with open(sys.argv[1], encoding="utf-8") as file:
    GIVEN = json.load(file)
PRIVATE, PUBLIC = GIVEN["private"], GIVEN["public"]
QUESTIONS = GIVEN["questions"]
FILES = ["catalogue", "quote", "report", "reservation", "stock"]


def stubs():
    """Makes the stubs and takes them in."""
    folder = tempfile.mkdtemp()
    names = [f"pennantry/v1/{name}_service.proto" for name in FILES]
    names += [f"pennantry/v1/{name}.proto" for name in ("money", "options", "reservation")]
    into = [f"--python_out={folder}", f"--grpc_python_out={folder}"]
    known = pathlib.Path(grpc_tools.__file__).parent / "_proto"
    asked = ["protoc", f"-I{GIVEN['proto']}", f"-I{known}", *into, *names]
    assert protoc.main(asked) == 0, "stubs cannot be made"
    sys.path.insert(0, folder)


stubs()
from pennantry.v1 import quote_service_pb2 as quotes  # noqa: E402
from pennantry.v1 import quote_service_pb2_grpc as quotes_grpc  # noqa: E402
from pennantry.v1 import report_service_pb2 as reports  # noqa: E402
from pennantry.v1 import report_service_pb2_grpc as reports_grpc  # noqa: E402
from pennantry.v1 import stock_service_pb2 as stock  # noqa: E402
from pennantry.v1 import stock_service_pb2_grpc as stock_grpc  # noqa: E402


def as_json(message):
    """A message by the library's own JSON mapping, zeros printed."""
    return json_format.MessageToDict(message, always_print_fields_with_no_presence=True)


def figures(value, path=""):
    """Every number of an answer, and every amount, by its path."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from figures(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from figures(inner, f"{path}[{place}]")
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield path, float(value)
    elif path.endswith((".minorUnits", ".stitchCount")):
        yield path, value


def same(name, wanted, given):
    assert dict(figures(wanted)) == dict(figures(given)), f"{name}: figures differ"
    assert wanted == given, f"{name}: answers differ"
    return sum(1 for _ in figures(given))


def refusal(error):
    """Reason and violations of a status, as the standard details have them."""
    reason, violations = None, []
    for detail in rpc_status.from_call(error).details:
        if detail.Is(error_details_pb2.ErrorInfo.DESCRIPTOR):
            info = error_details_pb2.ErrorInfo()
            detail.Unpack(info)
            reason = info.reason
        if detail.Is(error_details_pb2.BadRequest.DESCRIPTOR):
            bad = error_details_pb2.BadRequest()
            detail.Unpack(bad)
            violations = [(one.field, one.reason, one.description) for one in bad.field_violations]
    return reason, violations


def refused(code, call, *arguments, **options):
    try:
        call(*arguments, **options)
    except grpc.RpcError as error:
        assert error.code() == code, f"{error.code()}: {error.details()}"
        return error
    raise AssertionError(f"answered, and {code} was wanted")


def questions_over_grpc(channel):
    stub = quotes_grpc.QuoteServiceStub(channel)
    count = 0
    for question in QUESTIONS:
        asked = json_format.ParseDict({"enquiry": question["asked"]}, quotes.CalculateQuoteRequest())
        wanted = question["told"]
        if "quoteId" in wanted:
            count += same(question["name"], wanted, as_json(stub.CalculateQuote(asked).quote))
        else:
            error = refused(grpc.StatusCode.INVALID_ARGUMENT, stub.CalculateQuote, asked)
            listed = [(one["field"], one["reason"], one["message"]) for one in wanted["violations"]]
            assert refusal(error) == (wanted["reason"], listed), f"{question['name']}: {refusal(error)}"
    return f"{len(QUESTIONS)} questions, {count} figures"


def questions_over_http():
    """One connection, kept; the answers read back into messages are those of gRPC."""
    connection = http.client.HTTPConnection(PUBLIC)
    count = 0
    for question in QUESTIONS:
        body = json.dumps(question["asked"])
        connection.request("POST", "/v1/quotes", body, {"Content-Type": "application/json"})
        response = connection.getresponse()
        told = json.loads(response.read())
        wanted = question["told"]
        if "quoteId" in wanted:
            assert response.status == 200, told
            count += same(question["name"], wanted, told)
            count += same(question["name"], wanted, as_json(json_format.ParseDict(told, quotes.Quote())))
        else:
            assert (response.status, told["reason"], told["violations"]) == (400, wanted["reason"], wanted["violations"])
    connection.close()
    return f"{len(QUESTIONS)} questions, {count} figures"


def health(channel):
    stub = health_pb2_grpc.HealthStub(channel)
    names = ["", *(f"pennantry.v1.{name.capitalize()}Service" for name in FILES)]
    for name in names:
        told = stub.Check(health_pb2.HealthCheckRequest(service=name))
        assert told.status == health_pb2.HealthCheckResponse.SERVING, f"{name}: {told}"
    refused(grpc.StatusCode.NOT_FOUND, stub.Check, health_pb2.HealthCheckRequest(service="nobody"))
    watch = stub.Watch(health_pb2.HealthCheckRequest(service=names[-1]), timeout=20)
    assert next(watch).status == health_pb2.HealthCheckResponse.SERVING
    watch.cancel()
    return f"{len(names)} services"


def reflection(channel):
    """The contract as the server tells it; a call made from that alone."""
    database = ProtoReflectionDescriptorDatabase(channel)
    services = sorted(name for name in database.get_services() if name.startswith("pennantry."))
    assert services == [f"pennantry.v1.{name.capitalize()}Service" for name in FILES], services
    pool = DescriptorPool(database)
    method = pool.FindServiceByName("pennantry.v1.QuoteService").FindMethodByName("CalculateQuote")
    asked, told = GetMessageClass(method.input_type), GetMessageClass(method.output_type)
    call = channel.unary_unary(
        "/pennantry.v1.QuoteService/CalculateQuote",
        request_serializer=asked.SerializeToString,
        response_deserializer=told.FromString,
    )
    question = next(one for one in QUESTIONS if "quoteId" in one["told"])
    answer = call(json_format.ParseDict({"enquiry": question["asked"]}, asked()))
    return f"{len(services)} services, {same('reflected', question['told'], as_json(answer.quote))} figures"


def deadlines(channel):
    """A call has no more time than it is given, and a stream ends when its time is over."""
    stub = quotes_grpc.QuoteServiceStub(channel)
    short = [one for one in QUESTIONS if "quoteId" in one["told"] and len(json.dumps(one["asked"])) < 500]
    longest = max(short, key=lambda one: len(json.dumps(one["told"])))
    asked = quotes.CalculateQuotesRequest()
    json_format.ParseDict({"enquiries": [longest["asked"]] * 50}, asked)
    refused(grpc.StatusCode.DEADLINE_EXCEEDED, stub.CalculateQuotes, asked, timeout=0.000_001)
    assert len(stub.CalculateQuotes(asked, timeout=60).outcomes) == 50
    begun = time.monotonic()
    events = stock_grpc.StockServiceStub(channel).WatchStock(stock.WatchStockRequest(), timeout=1)
    error = refused(grpc.StatusCode.DEADLINE_EXCEEDED, list, events)
    took = time.monotonic() - begun
    assert 0.9 < took < 20, f"{took} s"
    return f"a stream of {took:.1f} s: {error.details()}"


def keep_alive():
    """A client that asks every half second whether the server is there is not turned away."""
    options = [
        ("grpc.keepalive_time_ms", 500),
        ("grpc.keepalive_timeout_ms", 5_000),
        ("grpc.keepalive_permit_without_calls", 1),
        ("grpc.http2.max_pings_without_data", 0),
        ("grpc.use_local_subchannel_pool", 1),
    ]
    seen = []
    with grpc.insecure_channel(PRIVATE, options=options) as channel:
        channel.subscribe(seen.append, try_to_connect=True)
        grpc.channel_ready_future(channel).result(timeout=20)
        stub = health_pb2_grpc.HealthStub(channel)
        for _ in range(2):
            time.sleep(3)
            assert stub.Check(health_pb2.HealthCheckRequest()).status == health_pb2.HealthCheckResponse.SERVING
        events = stock_grpc.StockServiceStub(channel).WatchStock(stock.WatchStockRequest(), timeout=3)
        refused(grpc.StatusCode.DEADLINE_EXCEEDED, list, events)
        assert seen[-1] == grpc.ChannelConnectivity.READY, seen
        assert seen.count(grpc.ChannelConnectivity.READY) == 1, f"the connection was lost: {seen}"
    return "one connection for 9 s"


def pieces(count):
    asked = stock.ReceiveStockRequest()
    for place in range(count):
        piece = asked.pieces.add(code="kelp", lot=f"LOT-{place}", location="a shelf with a rather long name")
        piece.quantity.length_mm = 1_000 + place
    return asked


def large(channel, name, **options):
    """5 000 pieces in one message, all of them listed again, and more than may be is refused."""
    stub = stock_grpc.StockServiceStub(channel)
    asked = pieces(5_000)
    assert asked.ByteSize() > 64 * 1024, asked.ByteSize()
    told = stub.ReceiveStock(asked, timeout=120, **options)
    assert len(told.piece_ids) == 5_000
    error = refused(grpc.StatusCode.OUT_OF_RANGE, stub.GetPiece, stock.GetPieceRequest(piece_id="x" * 70_000), **options)
    assert refusal(error)[0] == "TOO_LARGE", refusal(error)
    return f"{name}: {asked.ByteSize()} bytes asked, {told.ByteSize()} told"


def compressed(channel):
    """Questions and 5 000 pieces sent by gzip; a report comes by gzip to who takes it."""
    stub = quotes_grpc.QuoteServiceStub(channel)
    gzip = {"compression": grpc.Compression.Gzip}
    count = 0
    for question in [one for one in QUESTIONS if "quoteId" in one["told"]][:10]:
        asked = json_format.ParseDict({"enquiry": question["asked"]}, quotes.CalculateQuoteRequest())
        count += same(question["name"], question["told"], as_json(stub.CalculateQuote(asked, **gzip).quote))
    said = large(channel, "by gzip", **gzip)
    # some hundred bytes on the wire, a hundred times the limit once they are unpacked
    bomb = stock.GetPieceRequest(piece_id="x" * 6_000_000)
    error = refused(grpc.StatusCode.OUT_OF_RANGE, stock_grpc.StockServiceStub(channel).GetPiece, bomb, **gzip)
    assert refusal(error)[0] == "TOO_LARGE", refusal(error)
    run = reports_grpc.ReportServiceStub(channel)
    assert list(run.RunBurnReport(reports.RunBurnReportRequest(), timeout=120))
    plain = run.GetBurnReport.with_call(reports.GetBurnReportRequest())[0]
    return f"{count} figures; {said}; a report of {plain.ByteSize()} bytes"


def several(channel):
    """Threads share a connection."""
    faults = []

    def ask():
        try:
            questions_over_grpc(channel)
        except Exception as fault:  # told by the thread that waits
            faults.append(fault)

    threads = [threading.Thread(target=ask) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not faults, faults
    return "4 threads"


with grpc.insecure_channel(PRIVATE) as shared:
    parts = [
        ("questions over gRPC", lambda: questions_over_grpc(shared)),
        ("questions over HTTP", questions_over_http),
        ("several at once", lambda: several(shared)),
        ("health", lambda: health(shared)),
        ("reflection", lambda: reflection(shared)),
        ("deadlines", lambda: deadlines(shared)),
        ("keep-alive", keep_alive),
        ("large", lambda: large(shared, "plain")),
        ("compressed", lambda: compressed(shared)),
    ]
    for title, part in parts:
        print(f"{title}: {part()}", flush=True)
