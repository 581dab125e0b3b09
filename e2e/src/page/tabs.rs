//! Several tabs of one browser.

use anyhow::Result;
use fantoccini::wd::WindowHandle;

use super::Page;

/// A tab of the browser.
#[derive(Clone, Debug, PartialEq)]
pub struct Tab(WindowHandle);

impl Page {
    /// Opens another tab, speaks to it from now on, and gives the handle of the tab before.
    pub async fn new_tab(&self) -> Result<Tab> {
        self.collect_errors().await?;
        let before = self.current_tab().await?;
        let opened = self.client.new_window(true).await?;
        self.switch_to(&Tab(opened.handle)).await?;
        self.keep_view().await?;
        Ok(before)
    }

    /// The tab spoken to now.
    pub async fn current_tab(&self) -> Result<Tab> {
        Ok(Tab(self.client.window().await?))
    }

    /// Speaks to another tab from now on.
    pub async fn switch_to(&self, tab: &Tab) -> Result<()> {
        self.client.switch_to_window(tab.0.clone()).await?;
        Ok(())
    }

    /// Closes the tab spoken to and speaks to `next`.
    pub async fn close_tab(&self, next: &Tab) -> Result<()> {
        self.collect_errors().await?;
        self.client.close_window().await?;
        self.switch_to(next).await?;
        self.keep_view().await
    }
}
