//! A service that misbehaves on purpose.

use std::sync::Mutex;
use std::time::Duration;

use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    ConfigurationItem, DidChangeTextDocumentParams, Hover, HoverContents, HoverParams,
    InitializeParams, InitializeResult, MarkedString,
};
use tower_lsp::{Client, LanguageServer, async_trait};

use crate::lsp::transport::hand_over;

/// What the service does with a hover depends on the line that is asked about.
pub(super) const PANICS_AT_ONCE: u32 = 0;
pub(super) const PANICS_LATER: u32 = 1;
pub(super) const NEVER_ANSWERS: u32 = 2;
pub(super) const ASKS_BACK: u32 = 3;
pub(super) const ANSWERS_LATER: u32 = 4;
pub(super) const TELLS_THE_ORDER: u32 = 5;
pub(super) const HANDS_OVER: u32 = 6;

pub(super) struct Unruly {
    pub(super) client: Client,
    pub(super) versions: Mutex<Vec<i32>>,
}

#[async_trait]
impl LanguageServer for Unruly {
    async fn initialize(&self, _: InitializeParams) -> Result<InitializeResult> {
        Ok(InitializeResult::default())
    }

    async fn shutdown(&self) -> Result<()> {
        tokio::task::yield_now().await;
        Ok(())
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let version = params.text_document.version;
        assert_ne!(version, 13, "thirteen is unlucky");
        self.versions.lock().unwrap().push(version);
        tokio::time::sleep(Duration::from_millis(u64::from(version.unsigned_abs() % 3))).await;
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        match params.text_document_position_params.position.line {
            PANICS_AT_ONCE => panic!("at once"),
            PANICS_LATER => {
                tokio::task::yield_now().await;
                panic!("later")
            }
            NEVER_ANSWERS => std::future::pending().await,
            ASKS_BACK => {
                let item = ConfigurationItem { scope_uri: None, section: None };
                let _ = self.client.configuration(vec![item]).await;
            }
            ANSWERS_LATER => tokio::time::sleep(Duration::from_millis(50)).await,
            HANDS_OVER => {
                tokio::task::yield_now().await;
                hand_over(br#"{"contents":"handed over"}"#.to_vec());
            }
            _ => {}
        }
        Ok(Some(said(&format!("{:?}", self.versions.lock().unwrap()))))
    }
}

fn said(text: &str) -> Hover {
    Hover { contents: HoverContents::Scalar(MarkedString::String(text.into())), range: None }
}
