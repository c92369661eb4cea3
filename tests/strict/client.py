"""Every kind of message that the server sends, read by the types of the protocol.

A message has to fit its type, and nothing of it may be lost on the way through that type: what the
protocol does not know, the server must not send. What the client cannot do must not be sent either.
"""

import asyncio
import os
from pathlib import Path

import pytest
import pytest_lsp
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities
from pytest_lsp.protocol import LanguageClientProtocol
from pygls.protocol import default_converter

SHEET = Path(os.environ["BICINIUM_SHEET"])
TEXT = SHEET.read_text(encoding="utf-8")
URI = "file:///strict/mill.bicinium"
CLIENTS = [
    "visual_studio_code",
    "neovim@v0.7",
    "neovim@v0.11",
    "emacs",
]


def without_nothing(value):
    """The value without members that are null, which mean the same as members that are absent."""
    if isinstance(value, dict):
        return {key: without_nothing(it) for key, it in value.items() if it is not None}
    if isinstance(value, list):
        return [without_nothing(it) for it in value]
    return value


class StrictProtocol(LanguageClientProtocol):
    """Holds every message against what its type keeps of it."""

    lost: list

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.lost = []
        self.read = []

    def structure_message(self, data):
        message = super().structure_message(data)
        kept = self._converter.unstructure(message)
        if without_nothing(kept) != without_nothing(data):
            self.lost.append((data, kept))
        self.read.append(data)
        return message


def strict_client():
    client = LanguageClient(protocol_cls=StrictProtocol, converter_factory=default_converter)
    for method in (types.CLIENT_REGISTER_CAPABILITY, types.CLIENT_UNREGISTER_CAPABILITY):
        client.feature(method)(lambda params: None)
    client.feature(types.WORKSPACE_CONFIGURATION)(lambda params: [None for _ in params.items])
    return client


CONFIG = ClientServerConfig(
    server_command=[os.environ["BICINIUM"], "lsp"], client_factory=strict_client
)


@pytest_lsp.fixture(config=CONFIG, params=CLIENTS)
async def client(request, lsp_client: LanguageClient):
    capabilities = client_capabilities(request.param)
    params = types.InitializeParams(
        capabilities=capabilities,
        root_uri=None,
        workspace_folders=[types.WorkspaceFolder(uri="file:///strict", name="strict")],
    )
    result = await lsp_client.initialize_session(params)
    lsp_client.offer = result.capabilities
    yield
    await lsp_client.shutdown_session()


def place(line, character):
    return types.Position(line=line, character=character)


def column(text, encoding):
    """The column after this text, in the unit on which client and server have agreed."""
    widths = {"utf-8": lambda: len(text.encode()), "utf-32": lambda: len(text)}
    return widths.get(encoding, lambda: len(text.encode("utf-16-le")) // 2)()


def find(line, word, encoding):
    """The range of a word on a line."""
    start = TEXT.splitlines()[line].index(word)
    before = column(TEXT.splitlines()[line][:start], encoding)
    end = place(line, before + column(word, encoding))
    return types.Range(start=place(line, before), end=end)


DOCUMENT = types.TextDocumentIdentifier(uri=URI)
OPTIONS = types.FormattingOptions(tab_size=2, insert_spaces=True)
Whole = types.Range(start=place(0, 0), end=place(len(TEXT.splitlines()), 0))

def questions(offer):
    """What the server offers to answer, as calls of a client."""
    encoding = offer.position_encoding
    note = find(14, "C3", encoding).start
    hole = find(19, "?", encoding).end
    named = find(10, "mill-song", encoding).start
    at_note = {"text_document": DOCUMENT, "position": note}
    at_name = {"text_document": DOCUMENT, "position": named}
    asked = [
        ("hover_provider", "hover", types.HoverParams(**at_note)),
        ("completion_provider", "completion", types.CompletionParams(text_document=DOCUMENT, position=hole)),
        ("code_action_provider", "code_action", types.CodeActionParams(
            text_document=DOCUMENT, range=Whole, context=types.CodeActionContext(diagnostics=[]))),
        ("document_formatting_provider", "formatting", types.DocumentFormattingParams(DOCUMENT, OPTIONS)),
        ("document_range_formatting_provider", "range_formatting",
         types.DocumentRangeFormattingParams(DOCUMENT, Whole, OPTIONS)),
        ("document_on_type_formatting_provider", "on_type_formatting",
         types.DocumentOnTypeFormattingParams(DOCUMENT, note, "|", OPTIONS)),
        ("document_symbol_provider", "document_symbol", types.DocumentSymbolParams(DOCUMENT)),
        ("folding_range_provider", "folding_range", types.FoldingRangeParams(DOCUMENT)),
        ("selection_range_provider", "selection_range", types.SelectionRangeParams(DOCUMENT, [note, hole])),
        ("code_lens_provider", "code_lens", types.CodeLensParams(DOCUMENT)),
        ("document_link_provider", "document_link", types.DocumentLinkParams(DOCUMENT)),
        ("inlay_hint_provider", "inlay_hint", types.InlayHintParams(DOCUMENT, Whole)),
        ("document_highlight_provider", "document_highlight", types.DocumentHighlightParams(**at_note)),
        ("definition_provider", "definition", types.DefinitionParams(**at_name)),
        ("references_provider", "references", types.ReferenceParams(
            **at_name, context=types.ReferenceContext(include_declaration=True))),
        ("rename_provider", "prepare_rename", types.PrepareRenameParams(**at_name)),
        ("rename_provider", "rename", types.RenameParams(**at_name, new_name="river-song")),
        ("semantic_tokens_provider", "semantic_tokens_full", types.SemanticTokensParams(DOCUMENT)),
        ("semantic_tokens_provider", "semantic_tokens_range", types.SemanticTokensRangeParams(DOCUMENT, Whole)),
        ("diagnostic_provider", "diagnostic", types.DocumentDiagnosticParams(DOCUMENT)),
    ]
    return [(name, params) for provider, name, params in asked if getattr(offer, provider)]


async def settled(client):
    """Gives the server time to say what it says without being asked."""
    said = -1
    while said != len(client.protocol.read):
        said = len(client.protocol.read)
        await asyncio.sleep(0.5)


@pytest.mark.asyncio
async def test_every_message_is_what_its_type_says(client: LanguageClient):
    opened = types.TextDocumentItem(uri=URI, language_id="bicinium", version=1, text=TEXT)
    client.text_document_did_open(types.DidOpenTextDocumentParams(opened))
    for name, params in questions(client.offer):
        answer = await getattr(client, f"text_document_{name}_async")(params)
        assert answer is not None, name
    if client.offer.workspace_symbol_provider:
        await client.workspace_symbol_async(types.WorkspaceSymbolParams(query=""))
    await settled(client)
    assert client.protocol.lost == []
    assert len(client.protocol.read) > 5


@pytest.mark.asyncio
async def test_a_change_is_answered_by_types_as_well(client: LanguageClient):
    opened = types.TextDocumentItem(uri=URI, language_id="bicinium", version=1, text=TEXT)
    client.text_document_did_open(types.DidOpenTextDocumentParams(opened))
    note = find(14, "C3", client.offer.position_encoding)
    change = types.TextDocumentContentChangePartial(range=note, text="H3")
    version = types.VersionedTextDocumentIdentifier(uri=URI, version=2)
    client.text_document_did_change(types.DidChangeTextDocumentParams(version, [change]))
    actions = await client.text_document_code_action_async(types.CodeActionParams(
        text_document=DOCUMENT, range=note, context=types.CodeActionContext(diagnostics=[])))
    assert actions
    client.text_document_did_close(types.DidCloseTextDocumentParams(DOCUMENT))
    await settled(client)
    assert client.protocol.lost == []
